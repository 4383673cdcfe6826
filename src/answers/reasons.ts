import type { Instant } from "../kernel/index.ts";

/** Why a task is on the bench: what stands against placing it, in words with numbers. */
export interface BenchReason {
  readonly task: string;
  readonly sentence: string;
  /** A start that holds right now: with all others where they are when `slides` is false, else with others sliding. */
  readonly fitsAt: Fit | null;
  readonly slides: boolean;
}

/** Where a task would go. */
export interface Fit {
  readonly eva: string | null;
  readonly crew: readonly string[];
  readonly startS: Instant;
}
