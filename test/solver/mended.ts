import type { Mended } from "../../src/answers/index.ts";
import type { Plan, Schedule } from "../../src/plan/index.ts";
import { mendRun } from "../../src/solver/index.ts";

/** A mend from beginning to end. */
export function mend(plan: Plan, schedule: Schedule, settings: Parameters<typeof mendRun>[2]): Mended {
  const run = mendRun(plan, schedule, settings);
  while (run.step(Infinity)) continue;
  return run.best();
}
