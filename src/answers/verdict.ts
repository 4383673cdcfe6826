import type { Duration, Instant, Interval } from "../kernel/index.ts";
import type { Consumable } from "../plan/index.ts";
import type { RuleId, Sense, Unit } from "../rules/index.ts";

/** The judge's words: what a plan and its schedule come to. Everything here is computed, nothing is stored. */

/** breach: a rule is broken. tight: it holds by little, or a warning rule is broken. open: a must-do task is not placed, or too few of a group are. */
export type Level = "breach" | "tight" | "open";

/** What a finding is about. */
export interface Subject {
  readonly kind:
    | "task"
    | "crew"
    | "eva"
    | "link"
    | "group"
    | "equipment"
    | "container"
    | "place"
    | "keep-out"
    | "suit"
    | "block";
  readonly id: string;
}

/** What a rule asks for and what there is, of one of the things that it looks at. */
export interface Quantity {
  /** Which of them: the same name in every verdict. */
  readonly of: string;
  readonly need: number;
  readonly have: number;
  readonly unit: Unit;
  /** Whether there must be at least or at most what is needed. */
  readonly sense: Exclude<Sense, "either">;
}

/** One thing that breaks a rule or comes close to it. */
export interface Finding {
  readonly rule: RuleId;
  readonly level: Level;
  readonly subjects: readonly Subject[];
  /** When it holds; null when it is not about a time. */
  readonly span: Interval | null;
  /** What the rule asks for and what there is, both in `unit`; null when not a quantity. */
  readonly need: number | null;
  readonly have: number | null;
  readonly unit: Unit;
  /** All that the sentence is about, where that is more than one thing; need and have are those of the worst. */
  readonly parts?: readonly Quantity[];
  /** Plain words with the numbers, ready for a screen. */
  readonly sentence: string;
}

/** One stretch of a crew member's outing. Stretches follow each other without gap or overlap when the schedule is sound. */
export interface Stretch {
  readonly kind: "egress" | "traverse" | "task" | "wait" | "ingress";
  readonly span: Interval;
  /** The task at work; null otherwise. */
  readonly task: string | null;
  /** Place ids gone through, first to last; one id when standing still. */
  readonly path: readonly string[];
  readonly walkM: number;
  readonly metabolicW: number;
}

/** One crew member on one EVA. */
export interface Outing {
  readonly eva: string;
  readonly crew: string;
  /** Egress to ingress complete; the same for all who share the EVA. */
  readonly span: Interval;
  readonly stretches: readonly Stretch[];
}

/** A piecewise linear course over time. */
export interface Track {
  readonly points: readonly { readonly atS: Instant; readonly value: number }[];
}

/** One consumable of one suit on one EVA. Amounts in kg, or Wh for the battery. */
export interface MarginTrack extends Track {
  readonly eva: string;
  readonly crew: string;
  readonly consumable: Consumable;
  readonly stock: number;
  readonly reserve: number;
  /** Left above the reserve at ingress (the least point), as a share of the stock; negative below the reserve. */
  readonly margin: number;
}

/** Walk-back time over time for one crew member on one EVA, and the longest walk-back allowed at each moment. */
export interface ReachTrack extends Track {
  readonly eva: string;
  readonly crew: string;
  /** The slope angle that each point's walk-back counts with, radians. */
  readonly slopesRad: readonly number[];
  /** Allowed walk-back time, seconds: the least over emergency oxygen and what the consumables still carry. */
  readonly allowed: Track["points"];
}

/** Heat stored in a body on one EVA over time, kJ; only where the suit's cooling has a limit. */
export interface HeatTrack extends Track {
  readonly eva: string;
  readonly crew: string;
  /** The most that may be stored, kJ. */
  readonly mostKj: number;
}

/** Distance between two crew members of one EVA over time, metres. */
export interface SeparationTrack extends Track {
  readonly eva: string;
  readonly crew: readonly [string, string];
}

/**
 * A pause that work-and-rest relies on: without it the work on both sides of it would be one stretch longer than the
 * limit. It may take longer than it has to; its last `needS` seconds are enough.
 */
export interface Rest {
  readonly eva: string;
  readonly crew: string;
  /** The whole pause, to the begin of what is done next. */
  readonly span: Interval;
  /** What the rule asks for, s. */
  readonly needS: number;
  /** Place ids where it is taken, in order; one but for a restful task that ends elsewhere. */
  readonly places: readonly string[];
  /** The task that follows; null where it is the way home or ingress. */
  readonly before: string | null;
}

/** What a flight rule with a number of its own leaves to spare on a schedule, where it leaves least. */
export interface RuleSpare {
  readonly rule: RuleId;
  /**
   * In `unit`; below zero the rule is broken. untested: nothing on the schedule is bound by it. unknown: the plan does not say
   * what it would take to tell.
   */
  readonly spare: number | "untested" | "unknown";
  readonly unit: "s" | "m" | "kg" | "kJ" | "share";
  /** Where that is, or of what it is not known. */
  readonly subjects: readonly Subject[];
}

/**
 * How good a schedule is, compared in this order: fewer breaches, fewer must-do tasks left out, more worth, better
 * worst margin, fewer changes from the plan in hand, less walking, earlier finish. Whole numbers throughout.
 */
export interface Score {
  readonly breaches: number;
  readonly mustLeftOut: number;
  readonly worth: number;
  /** Least margin of all suits, in 1/10000 of the stock, rounded down; 10000 when nobody goes out. */
  readonly worstMargin: number;
  /** Placements that differ from the plan's own schedule. */
  readonly changes: number;
  readonly walkM: number;
  readonly finishS: number;
}

/** Everything the judge says of a plan and a schedule. */
export interface Verdict {
  readonly findings: readonly Finding[];
  readonly score: Score;
  readonly outings: readonly Outing[];
  readonly margins: readonly MarginTrack[];
  readonly reach: readonly ReachTrack[];
  readonly separation: readonly SeparationTrack[];
  readonly heat: readonly HeatTrack[];
  readonly placed: number;
  readonly mustPlaced: number;
  readonly mustTotal: number;
  /** Samples and their containers, kg. */
  readonly returnKg: number;
  /** Walked in the stay by crew member, m. */
  readonly walkedM: Readonly<Record<string, number>>;
  /**
   * The longest walk-back from anywhere inside each placed task, seconds: its place, its end place, between, and where it may lead
   * (S5); null where there is no way home.
   */
  readonly walkbackS: Readonly<Record<string, Duration | null>>;
  /** Pauses that the work limit relies on, by outing and time. */
  readonly rests: readonly Rest[];
  /** The least to spare by flight rule, of all rules that have a number in the plan's rules. */
  readonly spares: readonly RuleSpare[];
}
