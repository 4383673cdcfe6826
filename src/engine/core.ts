import type {
  BenchReason,
  CurveReport,
  FitBand,
  FromAnswer,
  FromAsk,
  GridReport,
  MendReport,
  OddsProgress,
  OddsReport,
  PackProgress,
  PackReport,
  ShedProgress,
  ShedReport,
  Verdict,
  WhyReport,
} from "../answers/index.ts";
import { check, compareScores, judgeFor } from "../check/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import { benchReasons, fitBands, greedy, gridded, mendRun, packRun, whyRun } from "../solver/index.ts";
import { oddsRun } from "../solver/simulate/index.ts";
import { shedRun } from "../solver/question/shed/index.ts";
import { curveRun, wishRun } from "../solver/wish/index.ts";
import { breachesOf } from "./breaches.ts";
import { fromWhat } from "./fromwhat/index.ts";
import type { OddsOptions, PackOptions, ShedOptions, SiteAnswer, SiteAsk, WhyOptions } from "./protocol.ts";
import { siteAnswer } from "./sitework.ts";
import { Judged } from "./whyreport.ts";
import { curveReport, daysOf, progressOf } from "./wishwork.ts";

/**
 * Maker and judge under one roof: the only place that knows both. The maker proposes, the judge has the last word
 * on everything that leaves.
 */
export interface Core {
  check(plan: Plan, schedule: Schedule): Verdict;
  pack(
    plan: Plan,
    options: PackOptions,
    report: (progress: PackProgress) => void,
    breathe: () => Promise<void>,
    signal?: AbortSignal,
  ): Promise<PackReport>;
  mend(
    plan: Plan,
    schedule: Schedule,
    options: PackOptions,
    breathe: () => Promise<void>,
    signal?: AbortSignal,
  ): Promise<MendReport>;
  gridded(plan: Plan, schedule: Schedule): GridReport;
  curve(
    plan: Plan,
    options: PackOptions,
    report: (progress: PackProgress) => void,
    breathe: () => Promise<void>,
    signal?: AbortSignal,
  ): Promise<CurveReport>;
  fitBands(plan: Plan, schedule: Schedule, task: string): readonly FitBand[];
  benchReasons(plan: Plan, schedule: Schedule): readonly BenchReason[];
  odds(
    plan: Plan,
    schedule: Schedule,
    options: OddsOptions,
    report: (progress: OddsProgress) => void,
    breathe: () => Promise<void>,
    signal?: AbortSignal,
  ): Promise<OddsReport>;
  shed(
    plan: Plan,
    schedule: Schedule,
    options: ShedOptions,
    report: (progress: ShedProgress) => void,
    breathe: () => Promise<void>,
    signal?: AbortSignal,
  ): Promise<ShedReport>;
  why(
    plan: Plan,
    schedule: Schedule,
    task: string | null,
    options: WhyOptions,
    report: (progress: WhyReport) => void,
    breathe: () => Promise<void>,
    signal?: AbortSignal,
  ): Promise<WhyReport>;
  fromWhat(plan: Plan, schedule: Schedule, ask: FromAsk): FromAnswer | null;
  site(plan: Plan, schedule: Schedule, ask: SiteAsk): SiteAnswer;
}

/** A slice of search between two looks at waiting messages, s: short enough that a cancel is felt at once. */
const SLICE_S = 0.012;
/** The same where one step may run over by some milliseconds. */
const DRIVE_S = 0.008;
/** Progress is reported at most this often, s. */
const REPORT_EVERY_S = 0.1;

/** Beyond its search a pack is given at most this long for proving, when nothing else is said, s. */
const PROVE_S = 2;

/** A question why is given this long when nothing else is said, s. */
const WHY_S = 3;

/** Something that is driven slice by slice. */
interface Sliced<Now> {
  step(sliceS: number): boolean;
  progress(): Now;
}

/** The core with a clock of the caller's, seconds from anywhere. */
export function makeCore(clock: () => number): Core {
  /** Drives `run` to its end or until `signal` aborts, gives way between slices and tells how far it has come. */
  async function drive<Now>(
    run: Sliced<Now>,
    report: (progress: Now) => void,
    breathe: () => Promise<void>,
    signal: AbortSignal | undefined,
  ): Promise<void> {
    let reportedS = -Infinity;
    while (run.step(DRIVE_S)) {
      if (signal?.aborted) break;
      if (clock() - reportedS >= REPORT_EVERY_S) {
        report(run.progress());
        reportedS = clock();
      }
      await breathe();
    }
    report(run.progress());
  }

  /** A day packed for the plan's wish; null where no sound one was found. */
  async function packForWish(
    plan: Plan,
    options: PackOptions,
    report: (progress: PackProgress) => void,
    breathe: () => Promise<void>,
    signal: AbortSignal | undefined,
  ): Promise<PackReport | null> {
    const run = wishRun(plan, { from: plan.schedule, ...options, clock });
    const progress = progressOf(plan, run);
    await drive({ step: (sliceS) => run.step(sliceS), progress }, report, breathe, signal);
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
      stopped: signal?.aborted ? "cancelled" : byIterations ? "iterations" : "time",
      ...(wished ? { wished } : {}),
    };
  }

  return {
    check,
    fitBands,
    fromWhat,
    site: siteAnswer,
    mend: async (plan, schedule, options, breathe, signal) => {
      const run = mendRun(plan, schedule, { ...options, clock });
      while (run.step(SLICE_S) && !signal?.aborted) await breathe();
      const made = run.best();
      return { ...made, verdict: check(plan, made.schedule) };
    },
    why: async (plan, schedule, task, options, report, breathe, signal) => {
      const run = whyRun(plan, schedule, task, { ...options, seconds: options.seconds ?? WHY_S, clock });
      const judged = new Judged(plan);
      let reportedS = -Infinity;
      let reported = run.report();
      while (run.step(SLICE_S) && !signal?.aborted) {
        if (run.report() !== reported && clock() - reportedS >= REPORT_EVERY_S) {
          reported = run.report();
          reportedS = clock();
          report(judged.report(reported));
        }
        await breathe();
      }
      return judged.report(run.report());
    },
    gridded: (plan, schedule) => {
      const judge = judgeFor(plan);
      const made = gridded(plan, schedule, (one) => breachesOf(judge(one)));
      return { ...made, verdict: judge(made.schedule) };
    },
    benchReasons: (plan, schedule) => benchReasons(plan, schedule),
    odds: async (plan, schedule, { days = 2000, seed = 1, shape = "pert" }, report, breathe, signal) => {
      const run = oddsRun(plan, schedule, { days, seed, shape, clock });
      await drive(run, report, breathe, signal);
      return run.report();
    },
    shed: async (plan, schedule, { minutes }, report, breathe, signal) => {
      const run = shedRun(plan, schedule, { minutes, clock });
      await drive(run, report, breathe, signal);
      return run.report();
    },
    curve: async (plan, options, report, breathe, signal) => {
      const run = curveRun(plan, { from: plan.schedule, ...options, clock });
      await drive(
        { step: (sliceS) => run.step(sliceS), progress: progressOf(plan, run) },
        report,
        breathe,
        signal,
      );
      return curveReport(run, judgeFor(plan));
    },
    pack: async (plan, options, report, breathe, signal) => {
      if (options.aim === "wish") {
        const wished = await packForWish(plan, options, report, breathe, signal);
        if (wished) return wished;
      }
      const from = options.from ?? plan.schedule;
      const proveSeconds =
        options.proveSeconds ?? (Number.isFinite(options.seconds) ? Math.min(PROVE_S, options.seconds) : 0);
      const run = packRun(plan, { ...options, proveSeconds, from, clock });
      let seen = 0;
      let reportedS = -Infinity;
      const tell = (): void => {
        const now = run.progress();
        report({
          seconds: now.seconds,
          iterations: now.iterations,
          worth: now.worth,
          placed: now.placed,
          mustPlaced: now.mustPlaced,
          schedule: now.improvements > seen ? run.best() : null,
        });
        seen = now.improvements;
        reportedS = clock();
      };
      while (run.step(SLICE_S)) {
        if (signal?.aborted) break;
        if (clock() - reportedS >= REPORT_EVERY_S) tell();
        await breathe();
      }
      tell();
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
      const progress = run.progress();
      return {
        ...best,
        iterations: progress.iterations,
        seconds: progress.seconds,
        greedy: greedyVerdict.score,
        bound: provenBound(progress.bound, progress.mustPlaced, best.verdict),
        stopped: progress.stopped ?? "cancelled",
      };
    },
  };
}

/** A bound counts for days with as many must-do tasks as the one it was proved beside. */
function provenBound(bound: number | null, mustPlaced: number, verdict: Verdict): number | null {
  return bound === null || verdict.score.breaches > 0 || mustPlaced !== verdict.mustPlaced
    ? null
    : Math.max(bound, verdict.score.worth);
}
