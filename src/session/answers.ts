import type {
  ChancesReport,
  CurveReport,
  OddsProgress,
  OddsReport,
  PackProgress,
  PrintedDay,
  PrintingProgress,
  LateProgress,
  LateReport,
  WhyReport,
} from "../answers/index.ts";
import type { Shape } from "../kernel/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";

/** What the session keeps of questions that take a while: each with the day it was asked about. */

/** A question why, under way or answered. */
export interface WhyQuestion {
  /** The task asked about; null when it is about what is wrong with the day. */
  readonly task: string | null;
  /** The finding it began from, in its own words; null when it began from the task. */
  readonly finding: string | null;
  /** The day it was asked about. */
  readonly plan: Plan;
  /** What that day is worth by the judge, groups counted as they count. */
  readonly worth: number;
  readonly seconds: number;
  readonly running: boolean;
  /** What is known so far. */
  readonly report: WhyReport | null;
  /** overtaken: the day changed before it was through. */
  readonly end: "answered" | "stopped" | "overtaken" | "failed" | null;
  readonly message: string | null;
  /** Variants made of relaxations, by the sentence of each. */
  readonly taken: ReadonlyMap<string, string>;
}

/** How a run stands. overtaken: the day changed, or another run was asked for, before it was through. */
interface Work<Progress, Report> {
  readonly running: boolean;
  readonly progress: Progress | null;
  /** The answer; while it runs and with `end` "stopped" it may be of fewer days or rows than asked for. */
  readonly report: Report | null;
  readonly end: "answered" | "stopped" | "overtaken" | "failed" | null;
  readonly message: string | null;
}

/** A day that odds are worked out of. */
export interface OddsDay {
  /** The open plan when it was asked for. */
  readonly base: Plan;
  /** The day itself: the open one or a variant's. */
  readonly plan: Plan;
}

/** Odds of a day. The report of the run before stays until this one has played all days; then it grows by its parts. */
export interface OddsWork extends Work<OddsProgress, OddsReport>, OddsDay {
  readonly options: OddsChoice;
  /** The day that the report is of; null without a report. */
  readonly reported: OddsDay | null;
}

/** How odds are worked out. */
export interface OddsChoice {
  readonly days: number;
  readonly seed: number;
  readonly shape: Shape;
}

/** The late table of the open day. */
export interface LateTableWork extends Work<LateProgress, LateReport> {
  readonly plan: Plan;
  /** The last order that was worked out to its end before, and the day that it is of. */
  readonly before: { readonly plan: Plan; readonly report: LateReport } | null;
}

/** The printed moments of the open day. */
export interface PrintedWork extends Work<PrintingProgress, PrintedDay> {
  readonly plan: Plan;
}

/** Chances of the shown day, and the day that they are of. */
export interface InSight {
  readonly plan: Plan;
  readonly schedule: Schedule;
  /** Null where they could not be worked out. */
  readonly report: ChancesReport | null;
}

/** By how much each chance of a day differs from that of another day, percentage points, on the same simulated days. */
export interface ChanceChange {
  /** The day that it is held against. */
  readonly from: Schedule;
  readonly home: number;
  readonly must: number;
  readonly whole: number;
}

/** Days along the curve of worth against chance. The report of the run before stays until this one answers. */
export interface CurveWork extends Work<PackProgress, CurveReport> {
  readonly plan: Plan;
  /** How long it may search. */
  readonly seconds: number;
  /** Its search was ended before that: what was found until then is counted, or is the report. */
  readonly isStopped: boolean;
}
