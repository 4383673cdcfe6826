import type { Schedule } from "../plan/index.ts";

/** What a run is given. */
export interface PackSettings {
  readonly seed: number;
  /** Iterations after which the run ends; the same seed and iterations give the same schedule. */
  readonly iterations?: number | undefined;
  /** Seconds of `clock` after which the run ends. */
  readonly seconds?: number | undefined;
  /** The caller's clock, seconds from anywhere. It only stops the run. */
  readonly clock: () => number;
  /** Placements to start from; held on to until something better is found. */
  readonly from?: Schedule | undefined;
}
