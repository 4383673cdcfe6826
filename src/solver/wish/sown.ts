import type { Random } from "../../kernel/index.ts";
import type { Placement, Schedule } from "../../plan/index.ts";
import { Day } from "../network/day.ts";
import { scheduleOf } from "../network/placing.ts";
import { evaOfChoice, withChoices } from "../problem/crewing.ts";
import type { Problem } from "../problem/problem.ts";
import { Recreate } from "../search/recreate.ts";
import { Ruin } from "../search/ruin.ts";

/**
 * A beginning of a day: every EVA, by itself, has a task drawn at random and a few that are near it. Which EVAs go where is settled in the
 * first turns of a pack and hardly ever left again, and by worth a second the first EVA always goes to the same place: begun so, packs from
 * nothing end in different days.
 */
export function sown(problem: Problem, random: Random): Schedule {
  const placements: Placement[] = [];
  const taken = new Set<string>();
  const evas = Array.from({ length: problem.evas }, (_, e) => e);
  while (evas.length > 0) {
    const [e] = evas.splice(random.below(evas.length), 1);
    // By itself an EVA does not know what is asked of a task and another one that is on an EVA before it.
    const own = withChoices(
      problem,
      (a, c) =>
        evaOfChoice(problem, a, c) === e &&
        !problem.pairs[a]!.some(({ other }) => taken.has(problem.plan.tasks[other]!.id)),
    );
    const free = problem.plan.tasks.flatMap(({ id }, a) =>
      own.choiceStart[a]! < own.choiceStart[a + 1]! && !taken.has(id) ? [a] : [],
    );
    if (free.length === 0) continue;
    const seed = free[random.below(free.length)]!;
    const day = new Day(own);
    new Recreate(day, random, true).begin(seed, new Ruin(day, random).nearTo(seed));
    for (const one of scheduleOf(day.board).placements) {
      if (taken.has(one.task)) continue;
      taken.add(one.task);
      placements.push(one);
    }
  }
  return { placements };
}
