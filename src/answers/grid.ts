import type { Schedule } from "../plan/index.ts";
import type { Verdict } from "./verdict.ts";

/** A schedule brought onto the plan's grid of starts, whole minutes by default. */
export interface Gridded {
  readonly schedule: Schedule;
  /** Tasks whose start changed, by how much, s, in the plan's order. */
  readonly moved: readonly { readonly task: string; readonly byS: number }[];
  /** Tasks that still begin off the grid: pinned there, or nothing near that breaks no further rule was found. */
  readonly left: readonly { readonly task: string; readonly why: "pinned" | "no room" }[];
  /** What was done and what was not, in words. */
  readonly sentence: string;
}

/** The same, judged. */
export interface GridReport extends Gridded {
  readonly verdict: Verdict;
}
