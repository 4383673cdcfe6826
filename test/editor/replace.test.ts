import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { placeHindered, proposalOf, type Taken } from "../../src/editor/index.ts";
import { placedAt } from "../../src/editor/replace.ts";
import { parseText } from "../../src/plan/index.ts";

const read = parseText(readFileSync("public/plans/small.json", "utf8"));
if (!read.ok) throw new Error(JSON.stringify(read.error));
const plan = read.value;
const held = (anchor: string, more: Partial<Taken> = {}): Taken => ({
  ...{ anchor, tasks: [anchor], fromLane: null, eva: null, edge: null },
  ...more,
});
const placeOf = (of: typeof plan, id: string) => of.tasks.find((task) => task.id === id)?.place;

describe("a task held over a place of the map", () => {
  it("gets that place and nothing else: its time and all other tasks are as they were", () => {
    const target = { at: "place", place: "low-scarp" } as const;
    const made = proposalOf(plan, held("stone-core"), target, "slide", () => () => 60);
    expect(placeOf(made.plan, "stone-core")).toBe("low-scarp");
    expect(made.schedule).toBe(plan.schedule);
    expect(made.plan.tasks.filter((task, i) => task !== plan.tasks[i])).toHaveLength(1);
  });

  it("stays as it was where it is already, over no place, and at a place that the plan does not have", () => {
    for (const place of ["split-stone", "", "nowhere"])
      expect(placedAt(plan, held("stone-core"), place)).toBe(plan);
  });

  it("says why it cannot, and then changes nothing", () => {
    const hindered: readonly (readonly [Taken, RegExp])[] = [
      [held("carry-listener"), /from one place to another/],
      [held("stone-core", { tasks: ["stone-core", "first-look"] }), /one at a time/],
      [held("stone-core", { eva: "eva-1" }), /EVA/],
      [held("stone-core", { edge: "end" }), /end is in hand/],
    ];
    for (const [taken, words] of hindered) {
      expect(placeHindered(plan, taken)).toMatch(words);
      expect(placedAt(plan, taken, "low-scarp")).toBe(plan);
    }
    const remote = {
      ...plan,
      tasks: plan.tasks.map((task) =>
        task.id === "stone-core" ? { ...task, crew: { ...task.crew, count: 0 } } : task,
      ),
    };
    expect(placeHindered(remote, held("stone-core"))).toMatch(/nobody goes out/);
    expect(placeHindered(plan, held("stone-core"))).toBeNull();
  });

  it("takes along an end place that only repeats the place", () => {
    const twice = {
      ...plan,
      tasks: plan.tasks.map((task) =>
        task.id === "stone-core" ? { ...task, endPlace: "split-stone" } : task,
      ),
    };
    const moved = placedAt(twice, held("stone-core"), "low-scarp").tasks.find(
      ({ id }) => id === "stone-core",
    );
    expect([moved?.place, moved?.endPlace]).toEqual(["low-scarp", "low-scarp"]);
  });
});
