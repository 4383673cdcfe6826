import type { Plan } from "../plan/index.ts";
import type { RehearsedWays } from "./walking.ts";

/**
 * Where somebody outside was that no task of the day tells of: at work that was given up or spoilt, or where they were on their way, or had come to, when
 * what they walked to was called off. It may last no time at all: it says where they go on from.
 */
export interface Stay {
  /** The task that was given up or spoilt; null for a way that was broken off. */
  readonly task: string | null;
  readonly eva: string | null;
  readonly crew: readonly string[];
  /** Places at its begin and end; points among them. */
  readonly place: string | undefined;
  readonly endPlace: string | undefined;
  readonly startS: number;
  readonly endS: number;
  /** True for work that was done to its end, though its result is lost. */
  readonly whole: boolean;
}

/** What happened between the tasks. */
export interface Between {
  /** In the order in which they ended. */
  readonly stays: readonly Stay[];
  /** The plan's site, and in it the points between its places at which a way was broken off. */
  readonly site: Plan["site"];
  /** The ways of that site. */
  readonly ways: RehearsedWays;
}
