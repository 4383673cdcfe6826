import { describe, expect, it } from "vitest";
import { changesOf } from "../../src/store/rehearsalchanges.ts";
import { at, task, tinyPlan } from "../check/tinyPlan.ts";

describe("what a new schedule changes", () => {
  const plan = tinyPlan({
    tasks: [task("x", "a"), task("y", "b"), task("z", "a"), task("w", "a"), task("v", "a")],
    placements: [at("x", 3000), at("y", 4200), at("z", 6000), at("v", 9000)],
  });

  it("is said task by task, what is lost first, minutes rounded up", () => {
    const { schedule } = tinyPlan({
      tasks: plan.tasks,
      placements: [at("x", 3061), at("z", 5990, ["ev2"]), at("w", 7260), at("v", 9000)],
    });
    expect(changesOf(plan, schedule)).toEqual([
      "y is dropped.",
      "x begins 2 min later.",
      "z goes to EV2, at 1:39.",
      "w is added, at 2:01 by EV1.",
    ]);
  });

  it("is nothing where nothing changes", () => {
    expect(changesOf(plan, plan.schedule)).toEqual([]);
  });
});
