import { describe, expect, it } from "vitest";
import { judgeFor } from "../../src/check/index.ts";
import type { Plan, Schedule } from "../../src/plan/index.ts";
import { readyPlan } from "../readyplan.ts";
import { packRun } from "../../src/solver/index.ts";
import { mend } from "../solver/mended.ts";
import { jolt } from "./jolt.ts";
import { randomPlan } from "./randomPlan.ts";

const clock = (): number => 0;

function packed(plan: Plan, seed: number, iterations: number): Schedule {
  const run = packRun(plan, { seed, iterations, clock });
  while (run.step(1)) continue;
  return run.best();
}

const mustIn = (plan: Plan, schedule: Schedule): string[] =>
  plan.tasks.flatMap((task) =>
    task.must && schedule.placements.some((one) => one.task === task.id) ? [task.id] : [],
  );

/** The first two people of the crew in each other's place everywhere. */
function exchanged(plan: Plan, { placements }: Schedule): Schedule {
  const [one, other] = plan.crew.map((member) => member.id);
  const swapped = (id: string): string => (id === one ? other! : id === other ? one! : id);
  return { placements: placements.map((spot) => ({ ...spot, crew: spot.crew.map(swapped) })) };
}

describe("a mend and must-do work", () => {
  it("drops none where a pack from an empty day, with the same seed and iterations, places all of it", () => {
    let broken = 0;
    let asked = 0;
    for (let seed = 52_000; seed < 52_110; seed += 1) {
      const random = randomPlan(seed, {
        tasks: 5 + (seed % 7),
        crew: 2 + (seed % 2),
        evas: 1 + (seed % 2),
        places: 3 + (seed % 4),
        features: (seed % 4) / 3,
      });
      // Every third task is must-do, so that there is something to lose.
      const plan = { ...random, tasks: random.tasks.map((task, k) => ({ ...task, must: k % 3 === 0 })) };
      const iterations = 12;
      const scratch = packed(plan, seed, iterations);
      const base = packed(plan, seed + 1, 30);
      const day = jolt(plan, jolt(plan, seed % 2 === 0 ? base : exchanged(plan, base), seed), seed + 1);
      const judge = judgeFor(plan);
      if (judge(day).score.breaches === 0) continue;
      broken += 1;
      const made = mend(plan, day, { seed, iterations, clock }).schedule;
      expect({ seed, breaches: judge(made).score.breaches }).toEqual({ seed, breaches: 0 });
      if (mustIn(plan, scratch).length < plan.tasks.filter((task) => task.must).length) continue;
      asked += 1;
      const kept = mustIn(plan, made);
      const lost = mustIn(plan, day).filter((id) => !kept.includes(id));
      expect({ seed, lost }).toEqual({ seed, lost: [] });
    }
    // Worth the trouble: most days are broken, and on many all must-do work fits.
    expect(broken).toBeGreaterThan(40);
    expect(asked).toBeGreaterThan(20);
  });

  it("keeps all must-do work and all worth of the packed demo when two people are exchanged everywhere", () => {
    const plan = readyPlan("demo");
    const base = packed(plan, 1, 400);
    const day = exchanged(plan, base);
    const judge = judgeFor(plan);
    expect(judge(day).score.breaches).toBeGreaterThan(0);
    const must = mustIn(plan, base);
    expect(must).toEqual(plan.tasks.flatMap((task) => (task.must ? [task.id] : [])));
    const { schedule, changes } = mend(plan, day, { seed: 1, iterations: 1, clock });
    expect(judge(schedule).score.breaches).toBe(0);
    expect(mustIn(plan, schedule)).toEqual(must);
    expect(changes.filter((change) => change.kind === "dropped")).toEqual([]);
  });
});
