import { judgeFor } from "../../src/check/index.ts";
import { random } from "../../src/kernel/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import { packRun } from "../../src/solver/index.ts";
import { randomPlan } from "./randomPlan.ts";

const ITERATIONS = 200;

/**
 * A whole plan, packed; names are ids, so that pages say which task they are for. A packed day leaves little time between
 * tasks: of two in three some are taken off again, as far as nothing breaks by it.
 */
export function packedPlan(seed: number): Plan {
  const plan = randomPlan(seed, {
    tasks: 12 + (seed % 9),
    crew: 1 + (seed % 3),
    evas: 1 + (seed % 2),
    places: 3 + (seed % 6),
    features: (1 + (seed % 4)) / 6,
  });
  const run = packRun(plan, { seed, iterations: ITERATIONS, clock: () => 0 });
  while (run.step(1)) continue;
  let schedule = run.best();
  if (seed % 3 === 0) return { ...plan, schedule };
  const judge = judgeFor(plan);
  const stream = random(seed);
  for (const { task } of schedule.placements) {
    if (stream.next() < 0.6) continue;
    const fewer = { placements: schedule.placements.filter((one) => one.task !== task) };
    if (judge(fewer).score.breaches === 0) schedule = fewer;
  }
  return { ...plan, schedule };
}
