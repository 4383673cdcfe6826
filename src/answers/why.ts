import type { Edit, Schedule } from "../plan/index.ts";
import type { RuleCause } from "../rules/index.ts";
import type { Score } from "./verdict.ts";

/** What can stand against a schedule: a rule, or a placement that is to stay. */
export type CauseKind = RuleCause | "placement";

/** One thing that stands against a task or a schedule, in words with its numbers. */
export interface WhyCause {
  /** The same for the same cause. */
  readonly key: string;
  readonly kind: CauseKind;
  /** Id of the task, link, EVA, container, equipment, block, keep-out or crew member; null for rules on the stay. */
  readonly subject: string | null;
  readonly sentence: string;
  /** Who decides on it when the planner may not; null where the planner does. */
  readonly owner: string | null;
}

/** Causes that cannot all hold. */
export interface WhyConflict {
  readonly causes: readonly WhyCause[];
  /** proved: no schedule has them all. searched: the search found none. */
  readonly certainty: "proved" | "searched";
  /** With every task in its order, free to slide; or with every start as it is. */
  readonly scope: "in this order" | "as it stands";
  /** False where more may be named than it takes. */
  readonly minimal: boolean;
  readonly sentence: string;
}

/** What can be given up: a number changed by whole steps, a condition taken away, or tasks dropped. */
export type RelaxationKind =
  | "drop"
  | "longest"
  | "ingress"
  | "egress"
  | "outing"
  | "reserve"
  | "window"
  | "pet"
  | "sun"
  | "light"
  | "sun-angle"
  | "relay"
  | "lag"
  | "link"
  | "group"
  | "pin"
  | "crew"
  | "equipment"
  | "container";

/** What giving something up costs, compared in this order. */
interface Cost {
  readonly mustLost: number;
  readonly worthLost: number;
  /** The change as a share of the number it changes; 1 for a condition taken away; the number of tasks dropped. */
  readonly size: number;
}

/** One thing given up, as the maker found it: the edit of the plan, the schedule that it makes possible, and what it costs. */
export interface TriedRelaxation {
  readonly kind: RelaxationKind | "rearrange" | "exchange";
  /** Id of what is changed; null where several tasks move or are dropped. */
  readonly subject: string | null;
  /** Whole steps given up: minutes, percents, tenths of a degree, units; 1 for yes or no. */
  readonly steps: number;
  readonly sentence: string;
  /** Who has to agree; null where the planner decides. */
  readonly owner: string | null;
  /** Changes the plan but for its schedule; empty where the schedule alone changes. */
  readonly edit: Edit;
  /** Sound under the changed plan: the wanted task placed, nothing else lost but what is dropped. */
  readonly schedule: Schedule;
  readonly dropped: readonly string[];
  /** One sentence for each placed task that starts at another time or is done by others, where nothing is given up for it. */
  readonly moves: readonly string[];
  readonly cost: Cost;
}

/** The same, judged without a breach: ready to be tried as a variant. */
export interface Relaxation extends TriedRelaxation {
  readonly score: Score;
}

/** Why a task is not on the day, or what is wrong with the schedule; grows while the call runs. */
export interface WhyReport<Given = Relaxation> {
  /** The task asked about; null when it is about the schedule, also where a broken schedule comes before the task. */
  readonly task: string | null;
  /**
   * looking: not known yet. placed, sound: nothing to explain. fits: with nothing else moved, or others started at other times.
   * rearranged: only when placed tasks move. conflict: something has to give.
   */
  readonly state: "looking" | "placed" | "sound" | "fits" | "rearranged" | "conflict";
  readonly sentence: string;
  readonly conflict: WhyConflict | null;
  /** Cheapest first: must-do tasks lost, then worth lost, then the change as a share of the number it changes. */
  readonly relaxations: readonly Given[];
  /** Rules in the conflict that are not for bargaining, each with who owns it. */
  readonly guarded: readonly string[];
  /** Changes tried, and how many there are to try. */
  readonly tried: number;
  readonly offers: number;
  readonly stopped: null | "done" | "time";
}
