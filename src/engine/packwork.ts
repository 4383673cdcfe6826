import type { PackProgress, PackReport, Verdict } from "../answers/index.ts";
import { compareScores, judgeFor } from "../check/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import { greedy, packRun } from "../solver/index.ts";
import type { PackOptions } from "./calls.ts";
import { drive, type Turn } from "./drive.ts";
import { packForWish } from "./wishwork.ts";

/** A slice of search between two looks at waiting messages, s: short enough that a cancel is felt at once. */
export const SLICE_S = 0.012;

/** Beyond its search a pack is given at most this long for proving, when nothing else is said, s. */
const PROVE_S = 2;

/** A day packed as `options` say; for the plan's wish where a sound day is found for it, else for likely durations. */
export async function pack(
  clock: () => number,
  plan: Plan,
  options: PackOptions,
  turn: Turn<"pack">,
): Promise<PackReport> {
  const wished = options.aim === "wish" ? await packForWish(clock, plan, options, turn) : null;
  return wished ?? packForLikely(clock, plan, options, turn);
}

async function packForLikely(
  clock: () => number,
  plan: Plan,
  options: PackOptions,
  turn: Turn<"pack">,
): Promise<PackReport> {
  const from = options.from ?? plan.schedule;
  const proveSeconds =
    options.proveSeconds ?? (Number.isFinite(options.seconds) ? Math.min(PROVE_S, options.seconds) : 0);
  const run = packRun(plan, { ...options, proveSeconds, from, clock, meets: turn.meet !== undefined });
  let seen = 0;
  const progress = (): PackProgress => {
    const { seconds, iterations, worth, placed, mustPlaced, improvements } = run.progress();
    const schedule = improvements > seen ? run.best() : null;
    seen = improvements;
    return { seconds, iterations, worth, placed, mustPlaced, schedule };
  };
  const driven = {
    step: (sliceS: number) => run.step(sliceS),
    progress,
    handOn: () => run.handOn?.() ?? null,
    takeUp: (schedule: Schedule) => run.takeUp?.(schedule),
  };
  await drive(clock, driven, SLICE_S, turn);
  const judge = judgeFor(plan);
  const greedySchedule = greedy(plan);
  const greedyVerdict = judge(greedySchedule);
  // The baseline and the day in hand are the floor: a run cut short must not be worse than either.
  const best = [run.best(), from]
    .map((schedule) => ({ schedule, verdict: judge(schedule) }))
    .reduce((a, b) => (compareScores(b.verdict.score, a.verdict.score) < 0 ? b : a), {
      schedule: greedySchedule,
      verdict: greedyVerdict,
    });
  const { iterations, seconds, bound, mustPlaced, stopped } = run.progress();
  return {
    ...best,
    iterations,
    seconds,
    greedy: greedyVerdict.score,
    bound: provenBound(bound, mustPlaced, best.verdict),
    stopped: stopped ?? "cancelled",
  };
}

/** A bound counts for days with as many must-do tasks as the one it was proved beside. */
function provenBound(bound: number | null, mustPlaced: number, verdict: Verdict): number | null {
  return bound === null || verdict.score.breaches > 0 || mustPlaced !== verdict.mustPlaced
    ? null
    : Math.max(bound, verdict.score.worth);
}
