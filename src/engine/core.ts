import { check, judgeFor } from "../check/index.ts";
import { printingRun } from "../exchange/index.ts";
import { type Plan, sameFrame } from "../plan/index.ts";
import { benchReasons, fitBands, gridded, mendRun, whyRun } from "../solver/index.ts";
import { lateTableRun } from "../solver/question/late/index.ts";
import { glanceRun, oddsRun } from "../solver/simulate/index.ts";
import { takeWorkedWays } from "../terrain/index.ts";
import { breachesOf } from "./breaches.ts";
import type { CallName, Calls } from "./calls.ts";
import { drive, type Turn } from "./drive.ts";
import { fromWhat } from "./fromwhat/index.ts";
import { pack, SLICE_S } from "./packwork.ts";
import { siteGround, siteLight, siteRings, siteWalks } from "./sitework.ts";
import { ways } from "./waywork.ts";
import { whyJudged } from "./whywork.ts";
import { curve, DRIVE_S } from "./wishwork.ts";

/**
 * Maker and judge under one roof: the only place that knows both. The maker proposes, the judge has the last word
 * on everything that leaves.
 */
export type Core = {
  readonly [Name in CallName]: (
    plan: Plan,
    given: Calls[Name]["given"],
    turn?: Turn<Name>,
  ) => Calls[Name]["answer"] | Promise<Calls[Name]["answer"]>;
};

/** A question why is given this long when nothing else is said, s. */
const WHY_S = 3;

/** The core with a clock of the caller's, seconds from anywhere. */
export function makeCore(clock: () => number): Core {
  /** Plans that differ in the schedule only stand for one another, so that what follows from the rest is made once. */
  let frame: Plan | null = null;
  const frameOf = (plan: Plan): Plan => (frame = frame && sameFrame(frame, plan) ? frame : plan);

  return {
    check: (plan, { schedule }) => check(plan, schedule),
    ways: (plan, options, turn = {}) => ways(plan, options, turn),
    pack: (plan, { ways: worked, ...options }, turn = {}) => {
      if (worked) takeWorkedWays(plan, worked);
      return pack(clock, plan, options, turn);
    },
    mend: async (plan, { schedule, ...options }, { yieldToHost, signal, enough } = {}) => {
      const run = mendRun(plan, schedule, { ...options, clock });
      while (run.step(SLICE_S) && !signal?.aborted && !enough?.aborted) await yieldToHost?.();
      const made = run.best();
      return { ...made, verdict: check(plan, made.schedule) };
    },
    gridded: (plan, { schedule }) => {
      const judge = judgeFor(plan);
      const made = gridded(plan, schedule, (one) => breachesOf(judge(one)));
      return { ...made, verdict: judge(made.schedule) };
    },
    printed: async (plan, options, turn = {}) => {
      const run = printingRun(plan, { ...options, clock });
      await drive(clock, run, DRIVE_S, turn);
      return run.day();
    },
    fitBands: (plan, { schedule, task }) => fitBands(plan, schedule, task),
    benchReasons: (plan, { schedule }) => benchReasons(plan, schedule),
    curve: (plan, options, turn = {}) => curve(clock, plan, options, turn),
    chances: async (plan, { schedule, days }, { yieldToHost, signal } = {}) => {
      const run = glanceRun(frameOf(plan), schedule, days, clock);
      while (run.step(SLICE_S) && !signal?.aborted) await yieldToHost?.();
      return run.report();
    },
    odds: async (plan, { schedule, days = 2000, seed = 1, shape = "pert" }, turn = {}) => {
      const run = oddsRun(plan, schedule, { days, seed, shape, clock });
      await drive(clock, run, DRIVE_S, turn);
      return run.report();
    },
    lateTable: async (plan, { schedule, minutes }, turn = {}) => {
      const run = lateTableRun(plan, schedule, { minutes, clock });
      await drive(clock, run, DRIVE_S, turn);
      return run.report();
    },
    why: (plan, { schedule, task, seconds = WHY_S, ...options }, turn = {}) =>
      whyJudged(clock, plan, whyRun(plan, schedule, task, { ...options, seconds, clock }), turn),
    fromWhat: (plan, { schedule, request }) => fromWhat(plan, schedule, request),
    siteGround: (plan) => siteGround(plan),
    siteLight: (plan, { atS }) => siteLight(plan, atS),
    siteRings: (plan, { left }) => siteRings(plan, left),
    siteWalks: (plan, { schedule }) => siteWalks(plan, schedule),
  };
}
