import type { HandedDay } from "../../answers/index.ts";
import type { Schedule } from "../../plan/index.ts";

/** What a run is given. */
export interface PackSettings {
  readonly seed: number;
  /** Iterations after which the run ends; the same seed and iterations give the same schedule. */
  readonly iterations?: number | undefined;
  /** Seconds of `clock` after which the run ends. */
  readonly seconds?: number | undefined;
  /**
   * Seconds of `clock` beyond the search for proving how much is possible at most; none when left out. Beside `iterations` turns of
   * the proof are counted instead, TURNS_A_SECOND for each.
   */
  readonly proveSeconds?: number | undefined;
  /** The caller's clock, seconds from anywhere. It only stops the run. */
  readonly clock: () => number;
  /** Placements to start from; held on to until something better is found. EVAs with common crew stay in their order. */
  readonly from?: Schedule | undefined;
  /** Others pack the same plan: now and then a step ends early for `handOn`. */
  readonly meets?: boolean | undefined;
}

/** How far a run has come. */
export interface RunProgress {
  readonly seconds: number;
  readonly iterations: number;
  readonly worth: number;
  readonly placed: number;
  readonly mustPlaced: number;
  readonly mustTotal: number;
  /** No schedule with as many must-do tasks is worth more; null while that is unknown. */
  readonly bound: number | null;
  /** Goes up by one with each better schedule. */
  readonly improvements: number;
  readonly stopped: null | "time" | "iterations" | "all placed" | "proved";
}

/** Turns of a proof that stand for a second where iterations are counted. */
export const TURNS_A_SECOND = 200;

/** A run that is driven slice by slice, so that its caller can stop it between two. */
export interface PackRun {
  /** Searches for at most `sliceS` seconds of the clock; false when the run is finished. */
  step(sliceS: number): boolean;
  /** The best schedule so far; without placements while there is none. */
  best(): Schedule;
  progress(): RunProgress;
  /** The day in hand, where it is time to tell others of it; null while it is not. Where a run is alone it never is. */
  handOn?(): HandedDay | null;
  /** Goes on from a day that another run of the same plan has in hand, where that is better than its own. */
  takeUp?(schedule: Schedule): void;
}
