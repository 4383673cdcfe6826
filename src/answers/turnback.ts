import type { Instant } from "../kernel/index.ts";
import type { Consumable } from "../plan/index.ts";

/** What ends an EVA: a bound of the EVA or the stay, or what somebody's suit carries. */
export type Limiter =
  | { readonly kind: "longest" | "latest-ingress" | "liftoff" }
  | { readonly kind: "block"; readonly block: string }
  | { readonly kind: "recharge"; readonly crew: string; readonly eva: string }
  | { readonly kind: "duty" | "drinking" | "emergency"; readonly crew: string }
  | { readonly kind: "reserve" | "walk-back"; readonly crew: string; readonly consumable: Consumable };

/** Ingress complete no later than this, MET s, and what sets it. */
export interface Limit {
  readonly ingressS: Instant;
  readonly by: Limiter;
}

/** One crew member outside, and when they must start home. */
export interface TurnBack {
  readonly crew: string;
  /** Place ids; the same where they stay. */
  readonly from: string;
  readonly to: string;
  /** So much of the way between is behind them, 0 to 1. */
  readonly share: number;
  /** Planned way home from there, and the walk-back (between two places the worst of that way), s; null where there is none. */
  readonly homeS: number | null;
  readonly walkbackS: number | null;
  /** Latest moment to start home from there, MET s; null where no way home is known. It may lie in the past. */
  readonly startHomeS: Instant | null;
  readonly by: Limiter;
  /**
   * What is already too late or too little, even if everybody starts home at once: seconds, or what a suit will be short of its reserve.
   * Null while there is time.
   */
  readonly over: { readonly amount: number; readonly unit: "s" | "kg" | "Wh" } | null;
}

/** An EVA under way at a moment: how soon and how late all of its crew can be inside. */
export interface Recall {
  readonly eva: string;
  /** Ingress complete at the earliest, if everything is dropped at that moment, MET s; null where somebody has no way home. */
  readonly earliestS: Instant | null;
  /** Ingress complete at the latest, whoever sets it. */
  readonly latest: Limit;
  /** One for each crew member of the EVA that has a suit. */
  readonly crew: readonly TurnBack[];
}
