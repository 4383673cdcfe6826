import { describe, expect, it } from "vitest";
import { changesBetween, type Plan, sameSchedule } from "../../src/plan/index.ts";
import { at, eva, type PlacementInput, task, tinyPlan } from "../check/tinyPlan.ts";

const tasks = [
  task("small", "a", { worth: 1 }),
  task("large", "a", { worth: 9 }),
  task("must", "a", { must: true, worth: 0 }),
  task("kept", "a"),
];
const day = (...placements: PlacementInput[]): Plan =>
  tinyPlan({ tasks, placements, evas: [eva("eva-1"), eva("eva-2")] });
const between = (before: Plan, after: Plan) =>
  changesBetween(before, before.schedule, after.schedule).map(
    ({ task: { id }, kind, byS, otherEva, otherCrew }) => [id, kind, byS, otherEva, otherCrew],
  );

describe("what became of tasks between two schedules", () => {
  const before = day(at("small", 3000), at("large", 4000), at("must", 5000), at("kept", 6000));

  it("is nothing where each stays, in whatever order they and their crew are named", () => {
    const both = day(at("kept", 6000, ["ev1", "ev2"]), at("small", 3000));
    const turned = day(at("small", 3000), at("kept", 6000, ["ev2", "ev1"]));
    expect(between(both, turned)).toEqual([]);
    expect(sameSchedule(both.schedule, turned.schedule)).toBe(true);
  });

  it("says what is dropped first, must-do before worth, and the rest in the plan's order", () => {
    expect(between(before, day(at("kept", 6060)))).toEqual([
      ["must", "dropped", 0, false, false],
      ["large", "dropped", 0, false, false],
      ["small", "dropped", 0, false, false],
      ["kept", "moved", 60, false, false],
    ]);
    // Also what counts less than something that is moved, and that the plan has behind it.
    expect(between(before, day(at("small", 3000), at("large", 4060), at("must", 5000)))).toEqual([
      ["kept", "dropped", 0, false, false],
      ["large", "moved", 60, false, false],
    ]);
    expect(between(day(at("kept", 6000)), before).map(([id, kind]) => [id, kind])).toEqual([
      ["small", "added"],
      ["large", "added"],
      ["must", "added"],
    ]);
  });

  it("tells time, EVA and crew apart", () => {
    const one = day(at("kept", 6000));
    expect(between(one, day(at("kept", 5000)))).toEqual([["kept", "moved", -1000, false, false]]);
    expect(between(one, day(at("kept", 6000, ["ev2"])))).toEqual([["kept", "moved", 0, false, true]]);
    expect(between(one, day(at("kept", 6000, ["ev1"], "eva-2")))).toEqual([
      ["kept", "moved", 0, true, false],
    ]);
    // What was not there before has neither another EVA nor another crew.
    expect(between(day(), one)).toEqual([["kept", "added", 0, false, false]]);
    expect(sameSchedule(one.schedule, day(at("kept", 6000, ["ev2"])).schedule)).toBe(false);
    expect(sameSchedule(one.schedule, day(at("large", 6000)).schedule)).toBe(false);
    expect(sameSchedule(one.schedule, before.schedule)).toBe(false);
  });
});
