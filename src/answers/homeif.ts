import type { Consumable } from "../plan/index.ts";

/** Least readings of a suit's gauges, whole % of what it holds when full; null for a stock that it does not have. */
export type Gauges = Readonly<Record<Consumable, number | null>>;

/**
 * What a suit must still hold, somewhere on an outing, to be home with its reserve. It counts from the moment at which they turn home: no
 * waiting, and no reading that is late or coarse, is in it.
 */
export interface HomeIf {
  readonly eva: string;
  readonly crew: string;
  /** Anywhere in a task; on the way to it (home: no task); at the lander. */
  readonly at: "task" | "way" | "lander";
  readonly task: string | null;
  /** The longest walk-back from there, s; null where there is no way home. */
  readonly walkbackS: number | null;
  /** Null where there is no way home. */
  readonly leastPct: Gauges | null;
}

/** What a suit must hold at egress to be home with its reserve when the day goes as planned. */
export interface GoIf {
  readonly eva: string;
  readonly crew: string;
  readonly leastPct: Gauges;
}
