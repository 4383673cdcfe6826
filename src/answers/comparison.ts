import type { Unit } from "../rules/index.ts";
import type { Finding, Score } from "./verdict.ts";

/** A finding that both verdicts have, and by how much it has changed. */
export interface Shift {
  /** As it is now. */
  readonly finding: Finding;
  /** More than 0. */
  readonly by: number;
  readonly unit: Unit;
}

/** What one verdict has over another. Findings are the same where rule and subjects are. */
export interface VerdictChange {
  /** Findings of `after` that `before` has not, or has at a lighter level: what was tight is broken. */
  readonly gained: readonly Finding[];
  /** Findings of `before` that `after` has no more at any level. */
  readonly lost: readonly Finding[];
  /** Those that are farther over than before, or have less to spare, at the same level. */
  readonly worse: readonly Shift[];
  /** Those that are less far over or have more to spare, at the same level or from broken to tight. */
  readonly eased: readonly Shift[];
  /** After less before, number by number. */
  readonly score: Score;
}
