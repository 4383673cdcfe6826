import { instant } from "../../kernel/index.ts";
import type { Plan, Schedule } from "../../plan/index.ts";
import { Bands } from "../bands.ts";
import type { Problem } from "../problem.ts";

/**
 * `schedule` with the tasks `extra` put on where nothing else has to move, each at its first such start on the plan's grid (a pinned one
 * where it is pinned); null when one finds none.
 */
export function* asItStands(
  problem: Problem,
  schedule: Schedule,
  extra: readonly string[],
): Generator<void, Schedule | null> {
  const { plan } = problem;
  let now = schedule;
  for (const task of extra) {
    const made = firstFit(plan, problem, now, task);
    yield;
    if (!made) return null;
    now = made;
  }
  return now;
}

function firstFit(plan: Plan, problem: Problem, schedule: Schedule, task: string): Schedule | null {
  const { startGridS } = plan.rules;
  const pinned = plan.tasks.some((one) => one.id === task && one.pin?.startS !== undefined);
  const [first] = new Bands(problem, schedule)
    .of(task)
    .flatMap(({ eva, crew, fixed }) =>
      fixed.flatMap((one) => {
        const startS = pinned ? one.startS : instant(Math.ceil(one.startS / startGridS) * startGridS);
        return startS < one.endS ? [{ task, eva, crew: [...crew], startS }] : [];
      }),
    )
    .sort((a, b) => a.startS - b.startS);
  if (!first) return null;
  const order = new Map(plan.tasks.map((one, a) => [one.id, a]));
  return {
    placements: [...schedule.placements, first].sort((a, b) => order.get(a.task)! - order.get(b.task)!),
  };
}
