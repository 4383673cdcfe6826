import type {
  BenchReason,
  ChancesReport,
  CurveReport,
  FitBand,
  HandedDay,
  FromAnswer,
  ExplainRequest,
  GridReport,
  Left,
  MendReport,
  OddsProgress,
  OddsReport,
  PackProgress,
  PackReport,
  PrintedDay,
  PrintingProgress,
  LateProgress,
  LateReport,
  SiteGround,
  SiteLight,
  SiteRing,
  SiteWalks,
  Verdict,
  WhyReport,
} from "../answers/index.ts";
import { keysOf, type Shape } from "../kernel/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import type { WorkedWays } from "../terrain/index.ts";

/** What a call is about beside the plan, what it answers, and what it tells on the way. */
interface Call<Given, Answer, Progress> {
  readonly given: Given;
  readonly answer: Answer;
  readonly progress: Progress;
}

/** A call. Only its types are of use, which follow the name through client, wire and core; the value stands for nothing. */
function call<Given, Answer, Progress = never>(): Call<Given, Answer, Progress> {
  return {} as Call<Given, Answer, Progress>;
}

/** Everything that the core is asked. A call is said here and done in the core; client, wire and server follow. */
export const CALLS = {
  check: call<OfSchedule, Verdict>(),
  /** What is dear of the plan's ways, for who judges the same plan elsewhere. */
  ways: call<WaysOptions, WorkedWays, WaysProgress>(),
  pack: call<PackOptions, PackReport, PackProgress>(),
  mend: call<OfSchedule & PackOptions, MendReport>(),
  /** The same day with its starts on the plan's grid; what cannot be is told. */
  gridded: call<OfSchedule, GridReport>(),
  /** The moments of the plan's own schedule that are printed, each as the judge has tested it. */
  printed: call<PrintOptions, PrintedDay, PrintingProgress>(),
  fitBands: call<OfSchedule & { readonly task: string }, readonly FitBand[]>(),
  benchReasons: call<OfSchedule, readonly BenchReason[]>(),
  curve: call<PackOptions, CurveReport, PackProgress>(),
  /** The chances on so many common simulated days: the first of those on which `odds` counts. */
  chances: call<OfSchedule & { readonly days: number }, ChancesReport>(),
  odds: call<OfSchedule & OddsOptions, OddsReport, OddsProgress>(),
  lateTable: call<OfSchedule & LateTableOptions, LateReport, LateProgress>(),
  why: call<OfSchedule & WhyOptions, WhyReport, WhyReport>(),
  /** From what a figure on a screen comes; null where there is no such figure any more. */
  fromWhat: call<OfSchedule & { readonly request: ExplainRequest }, FromAnswer | null>(),
  /** The ground of the plan with its contours; null where the plan has none. */
  siteGround: call<Nothing, SiteGround | null>(),
  siteLight: call<{ readonly atS: number }, SiteLight>(),
  siteRings: call<{ readonly left: readonly Left[] }, readonly SiteRing[]>(),
  siteWalks: call<OfSchedule, SiteWalks>(),
} as const;

export type Calls = typeof CALLS;
export type CallName = keyof Calls;

/** How a call is heard while it runs, and broken off. */
export interface Hearing<Name extends CallName> {
  readonly report?: ((progress: Calls[Name]["progress"]) => void) | undefined;
  readonly signal?: AbortSignal | undefined;
  /** Aborted when what was found is enough: a search ends there and answers with that, where `signal` leaves no answer. */
  readonly enough?: AbortSignal | undefined;
  /** Of a pack beside others of the same plan: hands its day on, and gives one of theirs to go on from, null where none is better. */
  readonly meet?: Meet | undefined;
}

/** How a pack hears of the days of others. */
export type Meet = (handed: HandedDay) => Promise<Schedule | null>;

/** The core as its clients see it. Every promise settles: with the answer, or rejected with EngineError, an abort at once. */
export type Engine = {
  readonly [Name in CallName]: (
    plan: Plan,
    given: Calls[Name]["given"],
    hearing?: Hearing<Name>,
  ) => Promise<Calls[Name]["answer"]>;
} & {
  /** Ends the worker; pending calls are rejected. */
  close(): void;
};

/** One of the engine's calls by its name. */
export type SendCall = <Name extends CallName>(
  name: Name,
  plan: Plan,
  given: Calls[Name]["given"],
  hearing?: Hearing<Name>,
) => Promise<Calls[Name]["answer"]>;

/** Every call of an engine, each asked by its name. */
export function callsBy(send: SendCall): Omit<Engine, "close"> {
  return Object.fromEntries(
    keysOf(CALLS).map((name) => [
      name,
      (plan: Plan, given: never, hearing: never) => send(name, plan, given, hearing),
    ]),
  ) as unknown as Omit<Engine, "close">;
}

/** Why a call has no answer. */
export class EngineError extends Error {
  override name = "EngineError";
  /** unheard: the worker was gone before it came to the call. */
  readonly reason: "cancelled" | "closed" | "failed" | "unheard";
  constructor(reason: EngineError["reason"], message: string) {
    super(message);
    this.reason = reason;
  }
}

export interface WaysOptions {
  /** Without what only ways that are not there yet need: enough for whoever leaves places and keep-outs alone. */
  readonly bare?: boolean | undefined;
}

/** How many places have their ways. */
export interface WaysProgress {
  readonly done: number;
  readonly total: number;
}

type Nothing = Readonly<Record<string, never>>;

/** Placements other than the plan's own may be asked about. */
export interface OfSchedule {
  readonly schedule: Schedule;
}

export interface PackOptions {
  readonly seed: number;
  /**
   * What a pack is after: the most worth at likely durations, or the most worth done on average under the chances that the plan wants
   * (everybody home, every must-do done). likely when left out.
   */
  readonly aim?: "likely" | "wish" | undefined;
  /** With the aim of a wish: the chance of every must-do done that is wanted this time; the plan's wish when left out. */
  readonly must?: number | undefined;
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
  /** The plan's ways, where they were worked out elsewhere already. */
  readonly ways?: WorkedWays | undefined;
}

export interface OddsOptions {
  /** Simulated days; 2000 when left out, 10,000 at most. */
  readonly days?: number | undefined;
  /** Same seed, same answer; 1 when left out. */
  readonly seed?: number | undefined;
  /** How durations spread; "pert" when left out. */
  readonly shape?: Shape | undefined;
}

export interface LateTableOptions {
  /** Ascending, minutes late or early; 5, 10, 20, 30 and 45 when left out. */
  readonly minutes?: readonly number[] | undefined;
}

export interface PrintOptions {
  /** Of a day under way: nothing is worked out of walks that had to begin before this, MET s. */
  readonly fromS?: number | undefined;
}

export interface WhyOptions {
  /** The task asked about; null for what is wrong with the schedule. */
  readonly task: string | null;
  readonly seed: number;
  /** The run ends after this many seconds of the caller's clock; 3 when left out. */
  readonly seconds?: number | undefined;
  /** Iterations of search behind each change that is tried. */
  readonly iterations?: number | undefined;
}
