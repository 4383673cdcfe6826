import { describe, expect, it } from "vitest";
import { changesOf } from "../../src/session/schedulechanges.ts";
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
    const changes = changesOf(plan, schedule);
    expect(changes.map((one) => one.sentence)).toEqual([
      "t is dropped.",
      "u is dropped.",
      "y is dropped.",
      "x begins 2 min later.",
      "z goes to EV2, at 1:39:50 MET.",
      "w is added, at 2:01 MET by EV1.",
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
    expect(changesOf(plan, plan.schedule)).toEqual([]);
  });
});
