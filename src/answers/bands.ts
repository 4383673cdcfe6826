import type { Interval } from "../kernel/index.ts";

/** Where a held task fits on one lane: whole-second starts, half-open stretches. */
export interface FitBand {
  readonly eva: string | null;
  readonly crew: readonly string[];
  /** Starts allowed with all others where they are. */
  readonly fixed: readonly Interval[];
  /** Starts allowed when the others may slide in their order. */
  readonly sliding: readonly Interval[];
}
