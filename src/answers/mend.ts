import type { Schedule } from "../plan/index.ts";
import type { WordedChange } from "../words/index.ts";
import type { Verdict } from "./verdict.ts";

/** A day repaired with few changes. */
export interface Mended {
  readonly schedule: Schedule;
  /** Every change: what is dropped first, of that must-do first, then the most worth. */
  readonly changes: readonly WordedChange[];
}

/** The same, judged. */
export interface MendReport extends Mended {
  readonly verdict: Verdict;
}
