import { judgeFor } from "../check/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import { curveRun, type Wished, type WishRun, wishRun } from "../solver/wish/index.ts";
import type { CurveReport, PackOptions, PackProgress, WishedDay } from "./protocol.ts";

/**
 * Packing for the chances that a plan wants. What the maker gives is judged like every day: one with a breach or without a must-do task
 * that could be placed is none.
 */
export function wishOf(plan: Plan, options: PackOptions, clock: () => number): WishRun {
  return wishRun(plan, settingsOf(plan, options, clock));
}

/** The same for several wishes at once. */
export function curveOf(plan: Plan, options: PackOptions, clock: () => number): WishRun {
  return curveRun(plan, settingsOf(plan, options, clock));
}

function settingsOf(plan: Plan, options: PackOptions, clock: () => number) {
  const { seed, seconds, iterations, from = plan.schedule } = options;
  return { seed, seconds, iterations, from, clock };
}

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

/** What was found for each wish, judged; without those that no sound day was found for. */
export function daysOf(plan: Plan, run: WishRun): WishedDay[] {
  const judge = judgeFor(plan);
  return run.best().flatMap((one: Wished) => {
    if (one.outcome === null || one.schedule.placements.length === 0) return [];
    const verdict = judge(one.schedule);
    if (verdict.score.breaches > 0) return [];
    return [{ ...one, outcome: one.outcome, verdict }];
  });
}

/** The curve of a finished run. */
export function curveReport(plan: Plan, run: WishRun): CurveReport {
  const { seconds, iterations, tried } = run.progress();
  return { days: daysOf(plan, run), seconds, iterations, tried };
}
