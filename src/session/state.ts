import type {
  BenchReason,
  FitBand,
  MendReport,
  PackProgress,
  PackReport,
  Score,
  Verdict,
  VerdictChange,
} from "../answers/index.ts";
import type { Fault, Plan, Schedule } from "../plan/index.ts";
import type {
  WhyQuestion,
  ChanceChange,
  CurveWork,
  InSight,
  OddsWork,
  PrintedWork,
  LateTableWork,
} from "./answers.ts";
import type { History } from "./history.ts";

/** What is open, and what is known of it. Every part is replaced as a whole and never changed in place. */
export interface SessionState {
  /** Where the open plan lies on the shelf. */
  readonly slot: string;
  /** elsewhere: another window writes the open plan, and this one shows what that has saved. */
  readonly writing: "here" | "elsewhere";
  readonly plan: Plan;
  /** Who works in this browser, as they call themselves; empty until they say so. */
  readonly author: string;
  /** The judge's word on `plan.schedule`; never behind the plan. */
  readonly verdict: Verdict;
  /** What a gesture under way would make of the schedule; null when nothing is in hand. */
  readonly preview: Preview | null;
  /** Ids of the selected tasks, in the order of selection. */
  readonly selection: readonly string[];
  readonly history: History;
  /** The last pack or mend, under way or done; null before the first. */
  readonly run: Run | null;
  /** Where the task in hand fits; null when nothing is in hand or the answer is not there yet. */
  readonly fitBands: readonly FitBand[] | null;
  /** Why each task on the bench is there, by task id; those of an older plan stay until the new ones arrive. */
  readonly benchReasons: ReadonlyMap<string, BenchReason>;
  /** The plan that `benchReasons` are of; null before the first. */
  readonly benchAsOf: Plan | null;
  /** The question why that is open; null when none is. */
  readonly why: WhyQuestion | null;
  /** Chances of the shown day as they were worked out last; null before the first time. See chancesStand. */
  readonly chances: (InSight & { readonly change: ChanceChange | null }) | null;
  /** The curve that was worked out last; null before the first. */
  readonly curve: CurveWork | null;
  /** Odds of the open day and of variants, by PRESENT or the variant's id. */
  readonly odds: ReadonlyMap<string, OddsWork>;
  /** The late table that was worked out last. */
  readonly lateTable: LateTableWork | null;
  /** The printed moments that were worked out last. */
  readonly printed: PrintedWork | null;
  /** The last file that was refused; null once a plan is opened or the planner has read it. */
  readonly refusal: Refusal | null;
  readonly saving: Saving;
  readonly notices: readonly Notice[];
}

/** A gesture under way: always the schedule at its begin plus one whole change, never a sum of small ones. */
export interface Preview {
  /** What the step will be called in the history. */
  readonly name: string;
  /** The tasks in hand. */
  readonly tasks: readonly string[];
  readonly start: Schedule;
  readonly schedule: Schedule;
  /** The open plan, or while a duration is in hand the plan as it would be. The shown schedule is `schedule`. */
  readonly plan: Plan;
  readonly verdict: Verdict;
  /** What the gesture gains and costs against its begin. */
  readonly difference: VerdictChange;
}

/** A pack or mend. */
export interface Run {
  readonly kind: "pack" | "mend";
  /** The plan it was asked for. */
  readonly plan: Plan;
  readonly running: boolean;
  /** How long it may search, seconds. */
  readonly seconds: number;
  readonly progress: PackProgress | null;
  /** The best schedule so far and what the judge says of it. */
  readonly best: Schedule | null;
  readonly bestVerdict: Verdict | null;
  /** Every better day in the order in which they came: after how many seconds, and its score. */
  readonly steps: readonly { readonly seconds: number; readonly score: Score }[];
  /** The answer, when it came and was taken. */
  readonly packed: PackReport | null;
  readonly mended: MendReport | null;
  /** The plan's schedule once the answer was taken over; null before. */
  readonly made: Schedule | null;
  /** How it ended: taken over, stopped by the planner, overtaken by a change of the plan, or failed. */
  readonly end: "taken" | "stopped" | "overtaken" | "failed" | null;
}

/** A file that was refused whole. */
interface Refusal {
  /** The file's or ready plan's name. */
  readonly name: string;
  readonly faults: readonly Fault[];
}

/** How the document in the browser's store stands against the open plan. */
export interface Saving {
  readonly status: "unsaved" | "waiting" | "saving" | "saved" | "failed";
  /** When the open document was last saved; null before the first time. */
  readonly savedAtMs: number | null;
  /** Why the last save failed. */
  readonly message: string | null;
}

/** Something the planner should know. */
export interface Notice {
  readonly id: string;
  readonly tone: "news" | "problem";
  readonly text: string;
}
