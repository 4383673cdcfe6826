import type { CrewRules } from "../../answers/index.ts";
import type { Random } from "../../kernel/index.ts";
import type { Schedule } from "../../plan/index.ts";
import type { Problem } from "../problem/problem.ts";
import type { Note } from "./chain.ts";
import type { Elites } from "./elites.ts";
import type { DayTrial } from "./trial.ts";

/** What the parts of one pack for the wish have in common. */
export interface Course {
  readonly problem: Problem;
  readonly crew: CrewRules;
  /** Placements to start from. */
  readonly from: Schedule | null;
  /** By wish; with several wishes the first is the least one. */
  readonly elites: readonly Elites[];
  /** Takes note of a schedule that was played, for every wish. */
  readonly note: Note;
  readonly trial: DayTrial;
  readonly random: Random;
  /** Days of others that pack the same plan, which the packer has not gone on from yet. */
  readonly guests: Schedule[];
  /** Done part of the search, 0 to 1. */
  share(): number;
  /** Counts `iterations` more. */
  tick(iterations: number): void;
}
