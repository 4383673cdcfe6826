import type { Instant, Shape } from "../kernel/index.ts";
import type { Consumable } from "../plan/index.ts";

/**
 * A chance counted from simulated days, with its sampling error: the interval of Wilson 1927, J Am Stat Assoc
 * 22:209-212, which in the long run holds the true chance in 95 of 100 cases.
 */
export interface Chance {
  /** Days in which it happened, and days in all. */
  readonly count: number;
  readonly of: number;
  /** count / of; 0 without days. */
  readonly share: number;
  readonly low: number;
  readonly high: number;
  /** Ready for a screen, never better than counted. */
  readonly words: string;
}

/** Values at 5, 25, 50, 75 and 95 %; amounts and worth rounded down, times up. */
export type Bands = readonly [number, number, number, number, number];

/** Parts of an odds report that take many times as long as its chances. */
export type PendingPart = "otherwise" | "offers" | "sensitivities";

/** What many simulated days come to. Each chance carries its sampling error; see Chance. */
export interface OddsReport {
  readonly days: number;
  readonly seed: number;
  readonly shape: Shape;
  /** False when broken off: then `days` are fewer than asked for. */
  readonly complete: boolean;
  /** Parts that are not worked out, or not yet: what stands there is no answer. They come in this order, after all else. */
  readonly pending: readonly PendingPart[];
  /** How the crew acts, and how far ahead it is careful. */
  readonly crew: CrewRules;
  /** Everybody is home inside every limit: EVA duration, latest ingress, every reserve. */
  readonly home: Chance;
  /** Every must-do task of the plan is done. */
  readonly must: Chance;
  /** Both, and nothing that is placed is missed. */
  readonly whole: Chance;
  /** The same day played otherwise: without one of the crew's rules, with other caution, with everybody's lateness by itself. */
  readonly otherwise: Comparisons;
  /** What the planner wants of the first two, shares. */
  readonly wish: { readonly home: number; readonly must: number };
  /** Placed tasks that are missed: must-do tasks before all others, the most often missed first; then by the worth that they cost. */
  readonly spoils: readonly Spoil[];
  /** What would mend them by leaving something out; none of a day that breaks a rule. */
  readonly offers: readonly Offer[];
  readonly evas: readonly EvaOdds[];
  /** Placed tasks in the plan's order. */
  readonly tasks: readonly TaskOdds[];
  /** Must-do tasks on the bench: while there are any, no day has them all done. */
  readonly mustOnBench: readonly string[];
  readonly margins: readonly MarginOdds[];
  readonly worth: WorthOdds;
  /** The tasks that hurt the odds most, worst first; at most three. */
  readonly sensitivities: readonly Sensitivity[];
  /** How `sensitivities` are measured, in words. */
  readonly sensitivityMeasure: string;
  /** Placed tasks without a low and high duration: they always take their likely time here. */
  readonly withoutSpread: readonly string[];
  /**
   * Placed tasks that no simulated day can play as they are placed: by crew who may not do them, where nobody may go, with more than may be
   * carried. While there are any, nothing of the day is played and no chance is known.
   */
  readonly unplayed: readonly string[];
  /** What is not simulated, in words. */
  readonly leftOut: string;
}

/** What many simulated days come to, in short. */
export interface Outcome {
  readonly home: Chance;
  readonly must: Chance;
  readonly meanWorth: number;
}

/** What is always in sight of a day as it may go: its chances, and of every placed task its own and its slack. */
export interface ChancesReport
  extends
    Outcome,
    Pick<
      OddsReport,
      | "days"
      | "seed"
      | "shape"
      | "crew"
      | "wish"
      | "whole"
      | "mustOnBench"
      | "withoutSpread"
      | "unplayed"
      | "leftOut"
    > {
  /** Placed tasks in the plan's order. */
  readonly tasks: readonly TaskChance[];
}

export interface TaskChance {
  readonly task: string;
  readonly must: boolean;
  readonly done: Chance;
  /** The reason on most of the days on which it is missed, in words; null where it never is. */
  readonly reason: string | null;
  /**
   * Latest start less expected arrival, whole seconds rounded down, negative when late: the latest start from which all needed work after
   * it can still be done, less the start on each day, on average; a day on which it is missed has none to spare. By
   * times alone: rests to come, greatest lags and consumables are not in it. Null where it has no opening left.
   */
  readonly slackS: number | null;
}

/** The rules of a crew that acts. */
export type ActingRule = "goesAhead" | "breaksOff" | "leavesOut" | "restsByRule";

/** How a simulated crew plays a day. */
export interface CrewRules extends Readonly<Record<ActingRule, boolean>> {
  /** 0: likely durations ahead, 1: high ones. */
  readonly caution: number;
}

/** What each rule of the crew is worth on this day, how caution moves it, and what shared lateness does to it. */
export interface Comparisons {
  readonly without: readonly { readonly rule: ActingRule; readonly outcome: Outcome }[];
  readonly byCaution: readonly { readonly caution: number; readonly outcome: Outcome }[];
  /** With every task's and crew member's lateness by itself; null while not played. */
  readonly independent: Outcome | null;
  /** With none of the plan's rare events; null while not played, and where it has none. */
  readonly unhindered: Outcome | null;
}

/** A task that is missed on some days. */
export interface Spoil {
  readonly task: string;
  readonly must: boolean;
  readonly missed: Chance;
  /** The reason on most of these days, in words. */
  readonly reason: string;
  /** How much more would count on average with it done too, whatever else is missed (S17). */
  readonly costs: number;
}

/** Optional tasks without which the day would do better, everything else as it is: played without them on the same days, and sound at likely durations. */
export interface Offer {
  /** In the order of the day. */
  readonly bench: readonly string[];
  /** A chance that is below its wish, or worth on average. */
  readonly gains: "chance" | "worth";
  readonly before: Outcome;
  readonly after: Outcome;
}

export interface EvaOdds {
  readonly eva: string;
  /** Closes inside all of its limits. */
  readonly closes: Chance;
  /** That, and nothing placed on it is missed. */
  readonly asPlanned: Chance;
  /** Every must-do task placed on it is done; null where it has none. */
  readonly must: Chance | null;
  /** What carries over from EVAs before it: it goes out later than planned; something on it is missed as what it needs was missed on another. */
  readonly outLate: Chance;
  readonly needsMissed: Chance;
  /** By limit: duration and latest ingress together, then what every suit has left at ingress. */
  readonly duration: Chance;
  readonly reserves: Readonly<Record<Consumable, Chance>>;
  readonly plannedIngressS: Instant;
  /** Ingress complete no later, with egress as planned. */
  readonly limitS: Instant;
  readonly ingressS: Bands;
}

interface TaskOdds {
  readonly task: string;
  readonly must: boolean;
  readonly done: Chance;
  /** Starts and ends inside a window (sun and relay passes count); null for a task without. */
  readonly window: Chance | null;
}

/** One consumable of one suit on one EVA over time: what is left, kg, or Wh for the battery. */
export interface MarginOdds {
  readonly eva: string;
  readonly crew: string;
  readonly consumable: Consumable;
  readonly stock: number;
  readonly reserve: number;
  readonly points: readonly { readonly atS: Instant; readonly left: Bands }[];
}

interface WorthOdds {
  readonly planned: number;
  readonly mean: number;
  readonly standardError: number;
  readonly bands: Bands;
  readonly least: number;
  readonly greatest: number;
}

export interface Sensitivity {
  readonly task: string;
  /** Chance of `home` and `must` together gained if the task took its likely time exactly, share; negative when lost. */
  readonly gain: number;
  /** Standard error of `gain`: both run on the same days. */
  readonly standardError: number;
  /** Mean worth gained in the same way. */
  readonly worthGain: number;
  readonly sentence: string;
}

/** How far a run has come. */
export interface OddsProgress {
  readonly seconds: number;
  readonly days: number;
  readonly of: number;
  /** What is known once all days are played, and again with each part more; null before. */
  readonly report: OddsReport | null;
}
