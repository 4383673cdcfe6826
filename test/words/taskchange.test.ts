import { describe, expect, it } from "vitest";
import { scheduleChanges } from "../../src/words/index.ts";
import { at, task, tinyPlan } from "../check/tinyPlan.ts";

describe("what a new schedule changes", () => {
  const plan = tinyPlan({
    tasks: [
      task("x", "a"),
      task("y", "b", { worth: 3 }),
      task("z", "a"),
      task("w", "a"),
      task("v", "a"),
      task("u", "a", { worth: 9 }),
      task("t", "a", { worth: 1, must: true }),
    ],
    placements: [
      at("x", 3000),
      at("y", 4200),
      at("z", 6000),
      at("v", 9000),
      at("u", 10_000),
      at("t", 11_000),
    ],
  });

  it("is said task by task: must-do tasks lost, then the most worth lost, then the rest; shifts rounded up to minutes", () => {
    const { schedule } = tinyPlan({
      tasks: plan.tasks,
      placements: [at("x", 3061), at("z", 5990, ["ev2"]), at("w", 7260), at("v", 9000)],
    });
    const changes = scheduleChanges(plan, plan.schedule, schedule);
    expect(changes.map((one) => one.sentence)).toEqual([
      "t goes back to the bench.",
      "u goes back to the bench.",
      "y goes back to the bench.",
      "x starts at 0:51:01 MET, 2 min later.",
      "z goes to EV2 and starts at 1:39:50 MET, 10 s earlier.",
      "w is put on the line, at 2:01 MET by EV1.",
    ]);
    expect(changes.map(({ kind, must }) => `${kind}${must ? " must" : ""}`)).toEqual([
      "dropped must",
      "dropped",
      "dropped",
      "moved",
      "moved",
      "added",
    ]);
  });

  it("is nothing where nothing changes", () => {
    expect(scheduleChanges(plan, plan.schedule, plan.schedule)).toEqual([]);
  });
});
