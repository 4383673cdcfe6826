import type { CurveReport, PackProgress, PackReport, Verdict, WishedDay } from "../answers/index.ts";
import { judgeFor } from "../check/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import { greedy } from "../solver/index.ts";
import { curveRun, type WishRun, wishRun } from "../solver/wish/index.ts";
import type { PackOptions } from "./calls.ts";
import { drive, type Turn } from "./drive.ts";

/** Packing for the chances that a plan wants. What the maker gives is judged like every day: one with a breach is none. */

/** A slice, s: one step may run over by some milliseconds. */
export const DRIVE_S = 0.008;

/** A day packed for the plan's wish; null where no sound one was found. */
export async function packForWish(
  clock: () => number,
  plan: Plan,
  options: PackOptions,
  turn: Turn<"pack">,
): Promise<PackReport | null> {
  const run = wishRun(wishing(plan, options.must), {
    from: plan.schedule,
    ...options,
    clock,
    meets: turn.meet !== undefined,
  });
  const progress = progressOf(plan, run);
  await drive(clock, { ...driven(run), progress }, DRIVE_S, turn);
  const judge = judgeFor(plan);
  const wished = daysOf(run, judge)[0];
  const schedule = wished?.schedule ?? run.best()[0]!.schedule;
  const verdict = wished?.verdict ?? judge(schedule);
  if (schedule.placements.length === 0 || verdict.score.breaches > 0 || verdict.score.mustLeftOut > 0)
    return null;
  const { seconds, iterations } = progress();
  const byIterations = options.iterations !== undefined && iterations >= options.iterations;
  return {
    schedule,
    verdict,
    iterations,
    seconds,
    greedy: judge(greedy(plan)).score,
    bound: null,
    stopped: isEnded(turn) ? "cancelled" : byIterations ? "iterations" : "time",
    ...(wished ? { wished } : {}),
  };
}

/** The plan, wanting `must` of every must-do done. */
function wishing(plan: Plan, must: number | undefined): Plan {
  if (must === undefined) return plan;
  return { ...plan, odds: { ...plan.odds, wish: { ...plan.odds.wish, must } } };
}

/** Worth against the chance of every must-do done, one sound day a wish. */
export async function curve(
  clock: () => number,
  plan: Plan,
  options: PackOptions,
  turn: Turn<"curve">,
): Promise<CurveReport> {
  const run = curveRun(plan, { from: plan.schedule, ...options, clock });
  const progress = progressOf(plan, run);
  await drive(clock, { ...driven(run), progress }, DRIVE_S, turn);
  const { seconds, iterations, tried } = run.progress();
  return { days: daysOf(run, judgeFor(plan)), seconds, iterations, tried };
}

function driven(run: WishRun): Pick<WishRun, "step" | "finish" | "handOn" | "takeUp"> {
  return {
    step: (sliceS) => run.step(sliceS),
    finish: () => run.finish(),
    handOn: () => run.handOn(),
    takeUp: (schedule) => run.takeUp(schedule),
  };
}

function isEnded({ signal, enough }: Turn<"pack">): boolean {
  return signal?.aborted === true || enough?.aborted === true;
}

/** Tells how far a run has come, in the words of a pack; its best day only when that is a new one. */
function progressOf({ tasks, groups }: Plan, run: WishRun): () => PackProgress {
  const must = new Set(tasks.filter((task) => task.must).map(({ id }) => id));
  const mustIn = ({ placements }: Schedule): number => {
    const placed = new Set(placements.map(({ task }) => task));
    return groups.reduce(
      (sum, group) => sum + Math.min(group.least, group.tasks.filter((id) => placed.has(id)).length),
      placements.filter(({ task }) => must.has(task)).length,
    );
  };
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
      mustPlaced: mustIn(schedule),
      schedule: isNew ? schedule : null,
      ...(tried > 0 ? { wished: { meanWorth, home, must: mustShare } } : {}),
    };
  };
}

/** The judge of the plan that was packed. */
type Judge = (schedule: Schedule) => Verdict;

/** What was found for each wish, judged; without those that no sound day was found for. */
function daysOf(run: WishRun, judge: Judge): WishedDay[] {
  return run.best().flatMap((one) => {
    if (one.outcome === null || one.schedule.placements.length === 0) return [];
    const verdict = judge(one.schedule);
    if (verdict.score.breaches > 0) return [];
    return [{ ...one, outcome: one.outcome, verdict }];
  });
}
