import { describe, expect, it } from "vitest";
import { applyEdit, editBetween, invertEdit, parse } from "../../src/plan/index.ts";
import type { PlanInput } from "../../src/plan/plan.ts";
import { completePlan, madeGround } from "./completePlan.ts";

const faultsOf = (ground: unknown): readonly { path: string; message: string }[] => {
  const read = parse({ ...completePlan, ground });
  return read.ok ? [] : read.error;
};
const planWith = (ground: PlanInput["ground"]) => {
  const read = parse({ ...completePlan, ground });
  if (!read.ok) throw new Error(JSON.stringify(read.error));
  return read.value;
};

describe("the plan's ground", () => {
  it("is measured or made", () => {
    expect(faultsOf(completePlan.ground)).toEqual([]);
    expect(faultsOf(madeGround)).toEqual([]);
    expect(faultsOf({ ...madeGround, type: "dreamt" })[0]).toMatchObject({ path: "ground.type" });
  });

  it("is refused with rows or columns that do not fit, with other signs, or with too many points", () => {
    const grid = completePlan.ground as Record<string, unknown>;
    expect(faultsOf({ ...grid, heights: ["1 2 3", "1 2 3"] })).toEqual([
      { path: "ground.heights", message: "has 2 rows, 3 are announced" },
    ]);
    expect(faultsOf({ ...grid, heights: ["1 2 3", "1 2", "1 2 3"] })).toEqual([
      { path: "ground.heights.1", message: "has 2 heights, 3 are announced" },
    ]);
    expect(faultsOf({ ...grid, heights: ["1 2 3", "1  2 3", "1 2 3.5"] }).map((one) => one.path)).toEqual([
      "ground.heights.1",
      "ground.heights.2",
    ]);
    expect(faultsOf({ ...madeGround, columns: 2000, rows: 2000 })).toEqual([
      { path: "ground.columns", message: "4000000 points are too many: at most 1000000" },
    ]);
  });

  it("is refused with more places than ways can be worked out between", () => {
    const [lander, ...others] = completePlan.site.places;
    const crowd = Array.from({ length: 120 - others.length }, (_, k) => ({ ...others[0]!, id: `p-${k}` }));
    const site = { ...completePlan.site, places: [lander!, ...others, ...crowd] };
    const read = parse({ ...completePlan, site });
    expect(read.ok ? [] : read.error).toEqual([
      { path: "site.places", message: "121 places are too many on a height grid: at most 120" },
    ]);
    expect(parse({ ...completePlan, site: { ...site, places: site.places.slice(0, 120) } }).ok).toBe(true);
  });

  it("is taken away by an edit, and comes back by undoing it", () => {
    const before = planWith(madeGround);
    const { ground, ...rest } = before;
    const edit = editBetween("Remove ground", before, rest);
    const after = applyEdit(before, edit);
    expect(after.ground).toBeUndefined();
    expect(applyEdit(after, invertEdit(edit)).ground).toBe(ground);
  });
});
