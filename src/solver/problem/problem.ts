import type { Plan } from "../../plan/index.ts";
import type { Ways } from "../../terrain/index.ts";

/**
 * The compiled problem: a plan as flat typed arrays, made once, read by every move.
 *
 * Activities are the plan's tasks in order. A route is one crew member on one EVA; a chain is one unit of a shared
 * equipment, which is nothing but a route without ways. An activity stands in as many routes and chains at once as
 * it needs crew members and units: one slot for each. Nodes are the activities, two for each EVA (egress; everybody
 * back at the lander), and a source and a sink at the ends of the chains.
 */

/** Later than any plan, and as a length longer than any: sums of two still fit 32 bits. */
export const NEVER = 1_000_000_000;

/** Consumables in the order of physics/CONSUMABLES. */
export const KINDS = 4;

/** Start intervals, both ends allowed, ascending and apart: first index by activity, one more than activities. */
export interface Openings {
  readonly openStart: Int32Array;
  readonly openFromS: Int32Array;
  readonly openToS: Int32Array;
}

/**
 * The openings of a problem are the starts that may be chosen: whole multiples of the grid, a pinned start, and `givenS`. Each begins
 * and ends on the grid or is one start long.
 */
export interface Problem extends Openings {
  readonly plan: Plan;

  // Sizes
  readonly kinds: number;
  readonly activities: number;
  readonly evas: number;
  readonly members: number;
  readonly suits: number;
  readonly routes: number;
  readonly chains: number;
  readonly nodes: number;
  readonly source: number;
  readonly sink: number;
  readonly places: number;
  readonly lander: number;
  readonly slots: number;

  // Nodes: length, place where it begins and ends. Egress lasts its work, "all back" lasts the ingress work.
  readonly lengthS: Int32Array;
  readonly beginsAt: Int32Array;
  readonly endsAt: Int32Array;

  // Activities
  readonly worth: Float64Array;
  readonly must: Uint8Array;
  readonly crewCount: Int32Array;
  /** First slot of each activity, crew slots before units; one more entry than activities. */
  readonly slotStart: Int32Array;
  /** Equipment of each slot, -1 for a crew slot. */
  readonly slotEquipment: Int32Array;
  /** Starts that are chosen are whole multiples of this, s. */
  readonly gridS: number;
  /** Starts off the grid that the schedule in hand gives, by activity. */
  readonly givenS: ReadonlyMap<number, number>;
  /** What windows, sky, stay and pins leave to the second: where a start that is given may lie. */
  readonly windows: Openings;
  /** Crew choices: routes of one EVA, `crewCount` at a time; first choice by activity, one more than activities. */
  readonly choiceStart: Int32Array;
  /** Offset of each choice's routes in `choiceRoutes`. */
  readonly choiceAt: Int32Array;
  readonly choiceRoutes: Int32Array;
  readonly innerM: Int32Array;
  /** How far a walk inside each activity may lead off the way between its ends, m. */
  readonly roamM: Float64Array;
  /** Longest walk-back inside each activity, s, where that is longer than from both of its ends; else 0. */
  readonly innerPeakS: Int32Array;
  /** 1 where the effort counts as rest. */
  readonly restful: Uint8Array;

  // Routes
  readonly evaOfRoute: Int32Array;
  readonly memberOfRoute: Int32Array;
  readonly suitOfRoute: Int32Array;
  /** Routes of EVA e are routeStart[e] .. routeStart[e + 1]. */
  readonly routeStart: Int32Array;
  /** Walking time by route, flat from * places + to; NEVER where there is no way or the walk-back is too long. */
  readonly legS: readonly Int32Array[];
  readonly legM: Int32Array;
  readonly ways: Ways;
  readonly homeS: Int32Array;
  readonly peakS: Int32Array;
  /** By entry of the ways: 1 where the way goes by a given leg that nobody can walk; null where there is none. */
  readonly beyond: Uint8Array | null;

  // Chains
  readonly equipmentOfChain: Int32Array;
  readonly chainStart: Int32Array;
  readonly equipmentCount: Int32Array;

  // EVAs: egress from, ingress complete to, ascending stretches between blocks
  readonly gapStart: Int32Array;
  readonly gapFromS: Int32Array;
  readonly gapToS: Int32Array;
  /** From egress to ingress complete at most: the EVA's own limit, that on EVA time in the stay, and drinking water. */
  readonly longestS: Int32Array;

  // Temporal edges between nodes: start(to) >= start(from) + weight, when both are placed
  readonly edges: EdgeList;

  // Relations
  readonly needs: readonly (readonly number[])[];
  readonly neededBy: readonly (readonly number[])[];
  readonly pairs: readonly (readonly Pair[])[];
  /** Null where no activity has one. */
  readonly pet: FromEgress | null;
  /** Null where there are none. */
  readonly groups: Groups | null;

  /** EVAs in the order in which they are flown where they have crew members in common. */
  readonly flying: readonly number[];

  // What everything draws over standing still.
  readonly draws: Consumption;
  /** Null where no order of anything stores too much. */
  readonly heat: Heat | null;
  readonly limits: Limits;
  readonly loads: Loads;
  /** Tied activities (links, needs, pairs) in groups that are moved together; every activity is in one. */
  readonly cluster: Int32Array;
  /** How much has to be looked at after an insertion that slack allows; see Day. */
  readonly checkLevel: CheckLevel;
}

/**
 * slack: nothing beyond, the slack test is exact. network: the temporal network has the last word. rules: also what depends on
 * the whole day (rests, stored heat, staying together, walk-back on consumables, duty, stores).
 */
type CheckLevel = "slack" | "network" | "rules";

export interface EdgeList {
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly weight: Int32Array;
  /** What the edge stands for, an index into `origin`. */
  readonly origin: readonly Origin[];
  /** Edges out of a node: outStart[node] .. outStart[node + 1] in `out`. */
  readonly outStart: Int32Array;
  readonly out: Int32Array;
  readonly intoStart: Int32Array;
  readonly into: Int32Array;
}

/** Where a temporal edge comes from, for explanations and checks. */
export type Origin =
  | { readonly rule: "link-lag"; readonly link: number; readonly side: "least" | "greatest" }
  | { readonly rule: "hot-keep-out"; readonly keepOut: number }
  | { readonly rule: "recharge"; readonly eva: number };

/** The groups of a plan, by number. */
export interface Groups {
  readonly least: Int32Array;
  /** NEVER where any number may be placed. */
  readonly most: Int32Array;
  /** The most worth first. */
  readonly members: readonly Int32Array[];
  /** What the first, second, ... placed member counts of its worth, %, all beyond as the last; empty where each counts whole. */
  readonly shares: readonly (readonly number[])[];
  /** By activity the groups that it is in. */
  readonly of: readonly (readonly number[])[];
}

/** Windows counted from egress (PET), by activity: start not before, end not after; no bound is -NEVER and NEVER. */
export interface FromEgress {
  readonly fromS: Int32Array;
  readonly toS: Int32Array;
  /** The activities that have one. */
  readonly bound: Int32Array;
}

/** A relation between two activities that is not about time. */
export interface Pair {
  readonly other: number;
  readonly relation: "same crew" | "different crew" | "same eva" | "not both";
  readonly link: number;
}

/** Draws in whole units over the rate of standing still, so that an outing costs `rest * length + sum of draws`. */
export interface Consumption {
  /** True when some consumable of some suit can run short. */
  readonly binds: boolean;
  /** By route and kind: available at ingress and for the walk-back, above what the rules keep back. */
  readonly available: Float64Array;
  readonly availableBack: Float64Array;
  /** By route and kind: the whole stock before the purge, and what of it is to be left at ingress. */
  readonly full: Float64Array;
  readonly reserve: Float64Array;
  /** By route and kind: the most that a walk-back from anywhere draws. */
  readonly dearest: Float64Array;
  /** Rate at rest, rate of egress and ingress work over rest. */
  readonly restRate: Float64Array;
  readonly airlockRate: Float64Array;
  /** By route and kind: what the purge takes before egress; `available` is without it. */
  readonly purged: Float64Array;
  /** By activity, route and kind. */
  readonly task: Float64Array;
  /** By route: flat from * places + to, times kinds. */
  readonly leg: readonly Float64Array[];
  /** By route: what the walk-back from each place draws, times kinds; nothing where there is none. */
  readonly home: readonly Float64Array[];
  /**
   * By entry of the ways: the number of the worst walk-back on it where that is longer than from both of its ends, else -1; and by
   * route what each of those draws, times kinds.
   */
  readonly peakAt: Int32Array;
  readonly peak: readonly Float64Array[];
  /** By activity, route and kind: what the longest walk-back inside it draws, where it is longer than from both of its ends; else 0. */
  readonly inner: Float64Array;
  /** By kind: 1 where it can bind at ingress, and where the walk-back can. */
  readonly kindBinds: Uint8Array;
  readonly walkbackBinds: Uint8Array;
}

/** Heat stored in the body, by route: what cooling carries off, the most stored, and whole J/s of heat (S7). */
export interface Heat {
  readonly coolingW: Float64Array;
  readonly mostJ: Float64Array;
  readonly restW: Float64Array;
  readonly airlockW: Float64Array;
  /** By activity and route. */
  readonly taskW: Float64Array;
  /** By route: flat from * places + to. */
  readonly legW: readonly Float64Array[];
}

/** Limits that are not about one activity; Infinity where a rule is only a warning. */
export interface Limits {
  readonly evaM: number;
  readonly stayM: number;
  readonly apartM: number;
  /** Straight distances between places, flat; empty when separation does not bind. */
  readonly straightM: Float64Array;
  readonly workS: number;
  readonly restS: number;
  readonly dutyS: number;
  readonly stores: Float64Array;
  readonly changes: number;
  readonly storesBind: boolean;
}

/** Sample mass and volume; grams and millilitres. */
export interface Loads {
  readonly container: Int32Array;
  readonly grams: Float64Array;
  readonly millilitres: Float64Array;
  readonly emptyGrams: Float64Array;
  readonly holdsGrams: Float64Array;
  readonly holdsMillilitres: Float64Array;
  readonly returnGrams: number;
}
