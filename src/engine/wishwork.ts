import type { CurveReport, PackProgress, Verdict, WishedDay } from "../answers/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import type { WishRun } from "../solver/wish/index.ts";

/**
 * Packing for the chances that a plan wants, as it goes over the wire. What the maker gives is judged like every day: one with a breach is
 * none.
 */

/** Tells how far a run has come, in the words of a pack; its best day only when that is a new one. */
export function progressOf({ tasks }: Plan, run: WishRun): () => PackProgress {
  const must = new Set(tasks.filter((task) => task.must).map(({ id }) => id));
  let sent: Schedule | null = null;
  return () => {
    const { seconds, iterations, meanWorth, home, must: mustShare, tried } = run.progress();
    const schedule = run.best().at(-1)!.schedule;
    const isNew = schedule !== sent && schedule.placements.length > 0;
    if (isNew) sent = schedule;
    return {
      seconds,
      iterations,
      worth: Math.floor(meanWorth),
      placed: schedule.placements.length,
      mustPlaced: schedule.placements.filter(({ task }) => must.has(task)).length,
      schedule: isNew ? schedule : null,
      ...(tried > 0 ? { wished: { meanWorth, home, must: mustShare } } : {}),
    };
  };
}

/** The judge of the plan that was packed. */
type Judge = (schedule: Schedule) => Verdict;

/** What was found for each wish, judged; without those that no sound day was found for. */
export function daysOf(run: WishRun, judge: Judge): WishedDay[] {
  return run.best().flatMap((one) => {
    if (one.outcome === null || one.schedule.placements.length === 0) return [];
    const verdict = judge(one.schedule);
    if (verdict.score.breaches > 0) return [];
    return [{ ...one, outcome: one.outcome, verdict }];
  });
}

/** The curve of a finished run. */
export function curveReport(run: WishRun, judge: Judge): CurveReport {
  const { seconds, iterations, tried } = run.progress();
  return { days: daysOf(run, judge), seconds, iterations, tried };
}
