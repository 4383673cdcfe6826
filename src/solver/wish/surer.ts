import { Day } from "../network/day.ts";
import { loadSchedule } from "../network/placing.ts";
import { Refine } from "../search/refine.ts";
import type { Course } from "./course.ts";
import type { Elites } from "./elites.ts";

/** Where the best does less than this part of what it plans, there is more to be had from chains. */
const NEARLY_ALL = 0.995;
/** Steps between two looks at the share that is done. */
const AT_ONCE = 4;

/**
 * Where the best does nearly all that it plans, whether it is lost on one day of a hundred hangs on its order, and the common days are too few to
 * tell: its margins, ways and ends are bettered as the packer does, until this share of the run is done, and each step of that is played.
 */
export function* surer(course: Course, until: number): Generator<undefined, void> {
  const fromShare = course.share();
  const { elites, random } = course;
  for (const [w, one] of elites.entries()) {
    const untilShare = fromShare + ((until - fromShare) * (w + 1)) / elites.length;
    const refine = refineOf(course, one, random.below(2 ** 31));
    while (refine && !refine.isDone && course.share() < untilShare) {
      for (let k = 0; k < AT_ONCE; k += 1) if (refine.iterate()) playBest(course, one, refine);
      course.tick(AT_ONCE);
      yield;
    }
  }
}

/** Betters the best of `elites`; null where it does not do nearly all that it plans. */
function refineOf({ problem }: Course, { best }: Elites, seed: number): Refine | null {
  if (!best) return null;
  const planned = problem.worth.reduce((sum, one, a) => sum + (best.placed[a] === 1 ? one : 0), 0);
  if (best.sampled.worth < NEARLY_ALL * planned) return null;
  const day = new Day(problem);
  loadSchedule(day, best.schedule);
  return new Refine(problem, seed, [day.board]);
}

function playBest({ trial, note }: Course, { wish, best }: Elites, refine: Refine): void {
  if (!best || !trial.lay(refine.best, true)) return;
  const sampled = trial.play(wish, best.sampled, 0, best.sampled.caution);
  if (sampled) note(trial.day.board, sampled);
}
