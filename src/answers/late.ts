import type { PackerRule } from "../rules/index.ts";
import type { Instant } from "../kernel/index.ts";
import type { Placement } from "../plan/index.ts";
import type { Outcome } from "./odds.ts";

/** For every EVA that takes place: what to drop when late, what to get ahead with when early. */
export interface LateReport {
  readonly minutes: readonly number[];
  /** False when the schedule breaks a rule as it stands: then there is no table. */
  readonly sound: boolean;
  /** Simulated days that each result is counted on; none of them was chosen by. */
  readonly days: number;
  /** False when broken off. */
  readonly complete: boolean;
  readonly evas: readonly LateTable[];
}

export interface LateTable {
  readonly eva: string;
  /** In the order of planned starts. */
  readonly rows: readonly LateRow[];
}

/** Leaving one task late, or early. */
export interface LateRow {
  readonly task: string;
  readonly crew: readonly string[];
  /** Planned end of the task. */
  readonly endS: Instant;
  /** One for each of the report's minutes. */
  readonly late: readonly LateEntry[];
  readonly early: readonly AheadCell[];
}

/**
 * What to do when that late. keep: drop nothing, everything slides. drop: leave these out. change: go on in another order, with what
 * is dropped left out and what is added taken up. end: nothing of the rest holds, walk home. over: even walking home at once breaks a rule.
 */
export interface LateEntry {
  readonly minutes: number;
  readonly kind: "keep" | "drop" | "change" | "end" | "over";
  /** In the order of planned starts; tasks elsewhere that need what is dropped among them. */
  readonly drop: readonly string[];
  /** Done, under way or kept, but in vain: it needs something that is dropped, or being so late loses it. Counted as lost. */
  readonly voided: readonly string[];
  readonly mustLost: number;
  readonly worthLost: number;
  /** True when no set that costs less holds, as far as the maker's rules see; false when the search was cut short, and of change. */
  readonly least: boolean;
  /**
   * Rules that being late breaks by itself, whatever is dropped. over: all of them. Else at most work-and-rest: the stretch of
   * work under way gets too long, by no more than the lateness.
   */
  readonly breaks: readonly PackerRule[];
  /** Tasks from the bench that are taken up instead; only of change. */
  readonly add: readonly string[];
  /** Tasks that stand otherwise than planned, and those taken up. */
  readonly moves: readonly Placement[];
  /** What each crew member does from then on, in order; only of change. */
  readonly then: readonly { readonly crew: string; readonly tasks: readonly string[] }[];
  /**
   * What a crew that does this comes to: the day as planned until then, this task so late, all after it as drawn. Worth of the whole day.
   * null of over, where a limit is broken already.
   */
  readonly result: Outcome | null;
  /** What only leaving out comes to, where something else does more. */
  readonly alone: { readonly mustLost: number; readonly worthLost: number; readonly result: Outcome } | null;
  readonly sentence: string;
}

/** Bench tasks of which each, alone, fits straight after the task when that early, the plan then going on as written. */
export interface AheadCell {
  readonly minutes: number;
  /** False when the task does not last that long: nobody can leave it so early without beginning early. */
  readonly possible: boolean;
  /** Worthiest first. */
  readonly fits: readonly {
    readonly task: string;
    readonly crew: readonly string[];
    readonly startS: Instant;
  }[];
}

/** How far a run has come: rows, and the tables with those. */
export interface LateProgress {
  readonly seconds: number;
  readonly rows: number;
  readonly of: number;
  readonly report: LateReport;
}
