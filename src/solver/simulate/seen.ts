import type { Outcome } from "../../answers/index.ts";
import { chanceOf } from "./chance.ts";

/** What simulated days come to: worth on average, and shares of the days on which everybody came home and every must-do task was done. */
export interface Seen {
  readonly worth: number;
  readonly home: number;
  readonly must: number;
}

/** Days that are counted, how many of them had everybody home and every must-do task done, and their worth in all. */
export interface Counted {
  readonly days: number;
  readonly home: number;
  readonly must: number;
  readonly worth: number;
}

/** What the days counted come to; nothing where there are none. */
export function seenOf({ days, home, must, worth }: Counted): Seen {
  const of = Math.max(1, days);
  return { worth: worth / of, home: home / of, must: must / of };
}

/** The same as an outcome, with what so many days can bear. */
export function outcomeOf(counted: Counted): Outcome {
  const { days, home, must } = counted;
  return { home: chanceOf(home, days), must: chanceOf(must, days), meanWorth: seenOf(counted).worth };
}
