import type { Schedule } from "../../../plan/index.ts";
import { Bands } from "../bands.ts";
import { firstFit } from "../firstfit.ts";
import type { Problem } from "../../problem/problem.ts";

/** `schedule` with the activities `group` put on where nothing else has to move, each at its first fit; null when one finds none. */
export function* asItStands(
  problem: Problem,
  schedule: Schedule,
  group: readonly number[],
): Generator<void, Schedule | null> {
  const { tasks } = problem.plan;
  const order = new Map(tasks.map((one, a) => [one.id, a]));
  let { placements } = schedule;
  for (const a of group) {
    const fit = firstFit(new Bands(problem, { placements }), problem, a);
    yield;
    if (!fit) return null;
    placements = [...placements, { ...fit, task: tasks[a]!.id, crew: [...fit.crew] }];
  }
  return { placements: placements.toSorted((a, b) => order.get(a.task)! - order.get(b.task)!) };
}
