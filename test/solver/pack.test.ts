import { describe, expect, it } from "vitest";
import { check } from "../../src/check/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import { readyPlan } from "../readyplan.ts";
import { packRun } from "../../src/solver/index.ts";
import { task, type TaskInput, tinyPlan } from "../check/tinyPlan.ts";

/** Remote work only, all of it must be done: `likelyS` seconds, on the one tool where `onTool`. */
function work(id: string, likelyS: number, onTool = false): TaskInput {
  return task(id, null, {
    duration: { likelyS },
    must: true,
    ...(onTool ? { equipment: [{ equipment: "tool" }] } : {}),
  });
}

function remotePlan(tasks: TaskInput[]): Plan {
  return tinyPlan({ tasks, more: { equipment: [{ id: "tool", name: "tool", count: 1 }] } });
}

describe("packRun", () => {
  it("proves the earliest finish where nobody goes out and all must be done", () => {
    const plan = remotePlan([
      work("a", 600, true),
      work("b", 900, true),
      work("c", 300, true),
      work("d", 1000),
    ]);
    const run = packRun(plan, { seed: 1, iterations: 500, clock: () => 0 });
    while (run.step(1)) continue;
    const { score } = check(plan, run.best());
    // One tool: 600 + 900 + 300 = 1800 s; the fourth runs beside them.
    expect(score).toMatchObject({ breaches: 0, mustLeftOut: 0, finishS: 1800 });
    expect(run.progress().stopped).toBe("proved");
  });

  it("finishes at once when there is nothing to do", () => {
    const run = packRun(remotePlan([]), { seed: 1, iterations: 5, clock: () => 0 });
    while (run.step(1)) continue;
    expect(run.best()).toEqual({ placements: [] });
  });
});

describe("must-do work", () => {
  it("makes optional work give way: every seed has all of the demo's on the day after a short search", () => {
    const plan = readyPlan("demo");
    for (let seed = 1; seed <= 8; seed += 1) {
      const run = packRun(plan, { seed, iterations: 1000, clock: () => 0 });
      while (run.step(Infinity));
      const { mustPlaced, mustTotal } = run.progress();
      expect(mustPlaced, `seed ${seed}`).toBe(mustTotal);
      expect(check(plan, run.best()).score.breaches).toBe(0);
    }
  });
});
