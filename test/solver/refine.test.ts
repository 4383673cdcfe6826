import { describe, expect, it } from "vitest";
import { compareScores, judgeFor } from "../../src/check/index.ts";
import type { Plan, Schedule } from "../../src/plan/index.ts";
import { packRun } from "../../src/solver/index.ts";
import { packedPlan } from "../properties/packedPlan.ts";
import { readyPlan } from "../readyplan.ts";

const EMPTY = { placements: [] };

function packed(plan: Plan, seed: number, iterations: number, from: Schedule = EMPTY) {
  const run = packRun(plan, { seed, iterations, from, clock: () => 0 });
  while (run.step(1)) continue;
  return { schedule: run.best(), stopped: run.progress().stopped };
}

describe("once everything is placed", () => {
  it("margin, walking and finish of the small day are the same by any seed", () => {
    const plan = { ...readyPlan("small"), schedule: EMPTY };
    const judge = judgeFor(plan);
    const scores = Array.from({ length: 12 }, (_, k) => judge(packed(plan, k + 1, 8000).schedule).score);
    const [first] = scores;
    const margins = scores.map(({ worstMargin }) => worstMargin);
    const ways = scores.map(({ walkM }) => walkM);
    for (const { worth, breaches } of scores) {
      expect(breaches).toBe(0);
      expect(worth).toBe(first!.worth);
    }
    expect(Math.min(...margins)).toBeGreaterThan(0.99 * Math.max(...margins));
    expect(Math.max(...ways)).toBeLessThan(1.01 * Math.min(...ways));
  });

  it("goes on for the rest of the score, and never to a worse day than it began with", () => {
    let bettered = 0;
    for (let seed = 1; seed <= 12; seed += 1) {
      const plan = packedPlan(3 * seed);
      const judge = judgeFor(plan);
      const before = judge(plan.schedule);
      const after = judge(packed(plan, seed, 400, plan.schedule).schedule);
      expect(after.score.breaches).toBe(0);
      const worse = compareScores(after.score, before.score);
      // What is worth nothing is placed too where it finds room, though the score would have it stay at home.
      if (after.score.worth === before.score.worth && after.placed > before.placed) continue;
      expect(worse, `seed ${seed}`).toBeLessThanOrEqual(0);
      if (worse < 0) bettered += 1;
    }
    expect(bettered).toBeGreaterThan(0);
  });

  it("changes nothing of a day of its own that nothing betters", () => {
    const plan = readyPlan("small");
    const { schedule } = packed({ ...plan, schedule: EMPTY }, 1, 8000);
    const again = { ...plan, schedule };
    const score = judgeFor(again)(packed(again, 2, 8000, schedule).schedule).score;
    expect(score.changes).toBe(0);
  });
});
