import type { Schedule } from "../plan/index.ts";
import type { Outcome } from "./odds.ts";
import type { Score, Verdict } from "./verdict.ts";

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

/** A day that a pack hands on to others of the same plan, and what it is worth there: number by number, more before less. */
export interface HandedDay {
  readonly schedule: Schedule;
  readonly value: readonly number[];
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

/** A day packed for a wish and what it comes to on simulated days that nobody chose by. */
export interface Wished {
  readonly schedule: Schedule;
  /**
   * How careful the crew is in leaving optional work out, for this to come about; the plan's own where the crew carries on
   * regardless.
   */
  readonly caution: number;
  readonly wish: { readonly home: number; readonly must: number };
  /** Null while nothing was counted. */
  readonly outcome: Outcome | null;
  readonly days: number;
  /** Both chances, as counted, are at or above the wish. */
  readonly meets: boolean;
}

/** The same, counted and judged. */
export interface WishedDay extends Wished {
  readonly outcome: Outcome;
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
