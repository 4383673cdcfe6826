import type { Schedule, TaskChange } from "../plan/index.ts";
import type { Verdict } from "./verdict.ts";

/** What became of one task between two schedules, in words. */
export interface Change {
  readonly task: string;
  readonly name: string;
  readonly must: boolean;
  readonly worth: number;
  readonly kind: TaskChange["kind"];
  readonly sentence: string;
}

/** A day repaired with few changes. */
export interface Mended {
  readonly schedule: Schedule;
  /** Every change: what is dropped first, of that must-do first, then the most worth. */
  readonly changes: readonly Change[];
}

/** The same, judged. */
export interface MendReport extends Mended {
  readonly verdict: Verdict;
}
