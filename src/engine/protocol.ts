import type { Finding, Score, Verdict } from "../check/index.ts";
import type { Instant, Interval } from "../kernel/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import type { OddsProgress, OddsReport, Shape } from "./oddsreport.ts";
import type { ShedProgress, ShedReport } from "./shedreport.ts";

export type * from "./oddsreport.ts";
export type * from "./shedreport.ts";

/** What the core offers behind the worker: one typed map of calls, their arguments, reports and answers. */

export interface PackOptions {
  readonly seed: number;
  /** Search stops after this many seconds of the caller's clock ... */
  readonly seconds: number;
  /** ... or after this many iterations, when given: the same seed and iterations give the same schedule. */
  readonly iterations?: number | undefined;
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
  /** One sentence for each change. */
  readonly changes: readonly { readonly task: string; readonly sentence: string }[];
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
  fitBands(plan: Plan, schedule: Schedule, task: string, signal?: AbortSignal): Promise<readonly FitBand[]>;
  benchReasons(plan: Plan, schedule: Schedule, signal?: AbortSignal): Promise<readonly BenchReason[]>;
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
