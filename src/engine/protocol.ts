import type { Finding, Score, Verdict } from "../check/index.ts";
import type { Instant, Interval } from "../kernel/index.ts";
import type { Edit, Plan, Schedule } from "../plan/index.ts";
import type { FromAnswer, FromAsk } from "./fromwhat/ask.ts";
import type { OddsProgress, OddsReport, Outcome, Shape } from "./oddsreport.ts";
import type { ShedProgress, ShedReport } from "./shedreport.ts";
import type { SiteCalls } from "./sitereport.ts";

export type * from "./fromwhat/ask.ts";
export type * from "./oddsreport.ts";
export type * from "./shedreport.ts";
export type * from "./sitereport.ts";

/** What the core offers behind the worker: one typed map of calls, their arguments, reports and answers. */

export interface PackOptions {
  readonly seed: number;
  /**
   * What a pack is after: the most worth at likely durations, or the most worth done on average under the chances that the plan wants
   * (everybody home, every must-do done). likely when left out.
   */
  readonly aim?: "likely" | "wish" | undefined;
  /** Seconds beyond the search for proving how much is possible at most; a default when left out. */
  readonly proveSeconds?: number | undefined;
  /** Search stops after this many seconds of the caller's clock ... */
  readonly seconds: number;
  /** ... or after this many iterations, when given: the same seed and iterations give the same schedule. */
  readonly iterations?: number | undefined;
  /** Mend drops these tasks only where nothing else makes the day sound. */
  readonly keep?: readonly string[] | undefined;
  /** Placements to start from and to hold on to where nothing is gained; the plan's own schedule when left out. */
  readonly from?: Schedule | undefined;
}

/** How far a pack has come. */
export interface PackProgress {
  readonly seconds: number;
  readonly iterations: number;
  readonly worth: number;
  readonly placed: number;
  readonly mustPlaced: number;
  /** The best schedule so far; sent only when it changed. */
  readonly schedule: Schedule | null;
  /** With the aim of a wish: of the best so far on the days searched with, which flatter a little. */
  readonly wished?: { readonly meanWorth: number; readonly home: number; readonly must: number } | undefined;
}

/** A day packed for a wish and what it comes to on simulated days that nobody chose by. */
export interface WishedDay {
  readonly schedule: Schedule;
  /** How careful the crew is in leaving optional work out, for this to come about. */
  readonly caution: number;
  readonly wish: { readonly home: number; readonly must: number };
  readonly outcome: Outcome;
  readonly days: number;
  /** Both chances, as counted, are at or above the wish. */
  readonly meets: boolean;
  readonly verdict: Verdict;
}

/** Worth on average against the chance of every must-do done: a day for each wish, that of the plan among them. */
export interface CurveReport {
  readonly days: readonly WishedDay[];
  readonly seconds: number;
  readonly iterations: number;
  /** Schedules played. */
  readonly tried: number;
}

export interface PackReport {
  readonly schedule: Schedule;
  readonly verdict: Verdict;
  readonly iterations: number;
  readonly seconds: number;
  /** What plain greedy insertion reaches on the same plan. */
  readonly greedy: Score;
  /** Proved upper bound on the worth; null when none was proved. */
  readonly bound: number | null;
  readonly stopped: "time" | "iterations" | "cancelled" | "all placed" | "proved";
  /** With the aim of a wish, what the day comes to; missing where the day is packed for likely durations, or was broken off. */
  readonly wished?: WishedDay | undefined;
}

/** Where a held task fits on one lane, others fixed or sliding. */
export interface FitBand {
  readonly eva: string | null;
  readonly crew: readonly string[];
  /** Starts allowed with all others where they are: half-open stretches of the start. */
  readonly fixed: readonly Interval[];
  /** Starts allowed when the others may slide in their order. */
  readonly sliding: readonly Interval[];
}

/** Why a task is on the bench: what stands against placing it, in words with numbers. */
export interface BenchReason {
  readonly task: string;
  readonly sentence: string;
  readonly findings: readonly Finding[];
  /** A start that the packer would accept right now, when there is one. */
  readonly fitsAt: {
    readonly eva: string | null;
    readonly crew: readonly string[];
    readonly startS: Instant;
  } | null;
}

export interface MendReport {
  readonly schedule: Schedule;
  readonly verdict: Verdict;
  /** Every change: what is dropped first, of that must-do first, then the most worth. */
  readonly changes: readonly Change[];
}

/** What becomes of one task, in words. */
export interface Change {
  readonly task: string;
  readonly name: string;
  readonly must: boolean;
  readonly worth: number;
  readonly kind: "dropped" | "added" | "moved";
  readonly sentence: string;
}

/** A schedule put on the plan's grid of starts, whole minutes by default. */
export interface GridReport {
  readonly schedule: Schedule;
  readonly verdict: Verdict;
  /** Tasks whose start changed, by how much, s. */
  readonly moved: readonly { readonly task: string; readonly byS: number }[];
  /** Tasks that still begin off the grid, and why. */
  readonly left: readonly { readonly task: string; readonly why: "pinned" | "no room" }[];
  readonly sentence: string;
}

export interface OddsOptions {
  /** Simulated days; 2000 when left out, 10,000 at most. */
  readonly days?: number | undefined;
  /** Same seed, same answer; 1 when left out. */
  readonly seed?: number | undefined;
  /** How durations spread; "pert" when left out. */
  readonly shape?: Shape | undefined;
}

export interface ShedOptions {
  /** Ascending, minutes late or early; 5, 10, 20, 30 and 45 when left out. */
  readonly minutes?: readonly number[] | undefined;
}

export interface WhyOptions {
  readonly seed: number;
  /** The run ends after this many seconds of the caller's clock; 3 when left out. */
  readonly seconds?: number | undefined;
  /** Iterations of search behind each change that is tried. */
  readonly iterations?: number | undefined;
}

/** One thing that stands against a task or a schedule, in words with its numbers. */
export interface WhyCause {
  /** The same for the same cause. */
  readonly key: string;
  readonly kind: string;
  /** Id of the task, link, EVA, container, equipment, block, keep-out or crew member; null for rules on the stay. */
  readonly subject: string | null;
  readonly sentence: string;
  /** Who decides on it when the planner may not; null where the planner does. */
  readonly owner: string | null;
}

/** Causes that cannot all hold. */
export interface WhyConflict {
  readonly causes: readonly WhyCause[];
  /** proved: no schedule has them all. searched: the search found none. */
  readonly certainty: "proved" | "searched";
  /** With every task in its order, free to slide; or with every start as it is. */
  readonly scope: "in this order" | "as it stands";
  /** False where more may be named than it takes. */
  readonly minimal: boolean;
  readonly sentence: string;
}

/** One thing given up, with which it fits: ready to be tried as a variant. */
export interface Relaxation {
  readonly kind: string;
  /** Id of what is changed; null where several tasks move or are dropped. */
  readonly subject: string | null;
  /** Whole steps given up: minutes, percents, tenths of a degree, units; 1 for yes or no. */
  readonly steps: number;
  readonly sentence: string;
  /** Who has to agree; null where the planner decides. */
  readonly owner: string | null;
  /** The change of the plan but for its schedule; empty where the schedule alone changes. */
  readonly edit: Edit;
  /** The schedule under the changed plan, and what the judge says of it: never a breach. */
  readonly schedule: Schedule;
  readonly score: Score;
  readonly dropped: readonly string[];
  /** One sentence for each placed task that moves, where nothing is given up for it. */
  readonly moves: readonly string[];
  /** Compared in this order; size is the change as a share of the number it changes, or the number of tasks dropped. */
  readonly cost: { readonly mustLost: number; readonly worthLost: number; readonly size: number };
}

/** Why a task is not on the day, or what is wrong with the schedule; grows while the call runs. */
export interface WhyReport {
  /** The task asked about; null when it is about the schedule, also where a broken schedule comes before the task. */
  readonly task: string | null;
  /** fits: with nothing else moved, or others started at other times. rearranged: only when placed tasks move. conflict: something has to give. */
  readonly state: "looking" | "placed" | "sound" | "fits" | "rearranged" | "conflict";
  readonly sentence: string;
  readonly conflict: WhyConflict | null;
  /** Cheapest first. */
  readonly relaxations: readonly Relaxation[];
  /** Rules in the conflict that are not for bargaining, each with who owns it. */
  readonly guarded: readonly string[];
  /** Changes tried, and how many there are to try. */
  readonly tried: number;
  readonly offers: number;
  readonly stopped: null | "done" | "time";
}

/** The core as its clients see it. Every promise settles: with the answer, or rejected with EngineError. */
export interface Engine {
  check(plan: Plan, schedule: Schedule, signal?: AbortSignal): Promise<Verdict>;
  pack(
    plan: Plan,
    options: PackOptions,
    report: (progress: PackProgress) => void,
    signal?: AbortSignal,
  ): Promise<PackReport>;
  mend(plan: Plan, schedule: Schedule, options: PackOptions, signal?: AbortSignal): Promise<MendReport>;
  /** The same day with its starts on the plan's grid, judged again; what cannot be is told. */
  gridded(plan: Plan, schedule: Schedule, signal?: AbortSignal): Promise<GridReport>;
  fitBands(plan: Plan, schedule: Schedule, task: string, signal?: AbortSignal): Promise<readonly FitBand[]>;
  benchReasons(plan: Plan, schedule: Schedule, signal?: AbortSignal): Promise<readonly BenchReason[]>;
  curve(
    plan: Plan,
    options: PackOptions,
    report: (progress: PackProgress) => void,
    signal?: AbortSignal,
  ): Promise<CurveReport>;
  odds(
    plan: Plan,
    schedule: Schedule,
    options: OddsOptions,
    report: (progress: OddsProgress) => void,
    signal?: AbortSignal,
  ): Promise<OddsReport>;
  shed(
    plan: Plan,
    schedule: Schedule,
    options: ShedOptions,
    report: (progress: ShedProgress) => void,
    signal?: AbortSignal,
  ): Promise<ShedReport>;
  why(
    plan: Plan,
    schedule: Schedule,
    task: string | null,
    options: WhyOptions,
    report: (progress: WhyReport) => void,
    signal?: AbortSignal,
  ): Promise<WhyReport>;
  /** From what a figure on a screen comes; null where there is no such figure any more. */
  fromWhat(plan: Plan, schedule: Schedule, ask: FromAsk, signal?: AbortSignal): Promise<FromAnswer | null>;
  /** The site as a map draws it: the schedule counts for "walks" only. */
  site<What extends keyof SiteCalls>(
    plan: Plan,
    schedule: Schedule,
    what: What,
    args: SiteCalls[What]["args"],
    signal?: AbortSignal,
  ): Promise<SiteCalls[What]["answer"]>;
  /** Ends the worker; pending calls are rejected. */
  close(): void;
}

/** Why a call has no answer. */
export class EngineError extends Error {
  override name = "EngineError";
  readonly reason: "cancelled" | "closed" | "failed";
  constructor(reason: "cancelled" | "closed" | "failed", message: string) {
    super(message);
    this.reason = reason;
  }
}
