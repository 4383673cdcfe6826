import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { only, pair } from "./pair.ts";
import { at, eva, task, tinyPlan } from "./tinyPlan.ts";

/** EV1 walks to b and home, 600 m each way, on each of two EVAs, and `walkM` more inside the first task. */
const plan = (evaM: number, stayM: number, walkM = 0) =>
  tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"] }), eva("eva-2", { crew: ["ev1"] })],
    tasks: [task("one", "b", { walkM }), task("two", "b")],
    placements: [at("one", 2000), at("two", 20_000, ["ev1"], "eva-2")],
    rules: { distance: { evaM, stayM } },
  });

describe("distance walked", () => {
  // 600 + 600 + 100 inside the task = 1300 m.
  pair("eva-distance", {
    breaks: ["1300 m walked, 1299 m allowed", plan(1299, 9999, 100)],
    says: { need: 1299, have: 1300 },
    holds: ["1300 m walked, 1300 m allowed", plan(1300, 9999, 100)],
  });
  // 1300 + 1200 = 2500 m.
  pair("stay-distance", {
    breaks: ["2500 m walked, 2499 m allowed", plan(9999, 2499, 100)],
    says: { need: 2499, have: 2500 },
    holds: ["2500 m walked, 2500 m allowed", plan(9999, 2500, 100)],
  });

  test("eva-distance is tight within 5 % of the limit", () => {
    // 1300 / 1368 = 95.03 %; 1300 / 1369 = 94.96 %.
    expect(only(plan(1368, 9999, 100), "eva-distance").level).toBe("tight");
    expect(check(plan(1369, 9999, 100)).findings).toEqual([]);
  });

  test("stay-distance is tight within 5 % of the limit", () => {
    // 2500 / 2631 = 95.02 %; 2500 / 2632 = 94.98 %.
    expect(only(plan(9999, 2631, 100), "stay-distance").level).toBe("tight");
    expect(check(plan(9999, 2632, 100)).findings).toEqual([]);
  });

  test("eva-distance counts a part of a metre inside a task as a whole one", () => {
    expect(only(plan(1300, 9999, 100.2), "eva-distance")).toMatchObject({ level: "breach", have: 1301 });
  });
});
