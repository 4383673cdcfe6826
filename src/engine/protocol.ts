import type {
  BenchReason,
  CurveReport,
  FitBand,
  FromAnswer,
  FromAsk,
  GridReport,
  Left,
  MendReport,
  OddsProgress,
  OddsReport,
  PackProgress,
  PackReport,
  ShedProgress,
  ShedReport,
  SiteGround,
  SiteLight,
  SiteRing,
  SiteWalks,
  Verdict,
  WhyReport,
} from "../answers/index.ts";
import type { Shape } from "../kernel/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";

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

/** What may be asked of the site, by name. */
export interface SiteCalls {
  ground: { args: null; answer: SiteGround | null };
  light: { args: { readonly atS: number }; answer: SiteLight };
  rings: { args: { readonly left: readonly Left[] }; answer: readonly SiteRing[] };
  walks: { args: null; answer: SiteWalks };
}

export type SiteAsk = {
  [Name in keyof SiteCalls]: { readonly what: Name; readonly args: SiteCalls[Name]["args"] };
}[keyof SiteCalls];

export type SiteAnswer = SiteCalls[keyof SiteCalls]["answer"];

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
