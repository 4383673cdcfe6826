import type { Plan } from "../../plan/index.ts";
import type { Problem } from "../problem.ts";
import { minutes, named } from "../words.ts";
import type { Cause } from "./cause.ts";
import type { Clash } from "./clash.ts";
import type { Nearest } from "./nearest.ts";
import type { Relaxation } from "./relax.ts";
import { type SaidCause, sayCause } from "./words.ts";

/** A loop of times that does not close, in words. */
export interface SaidLoop {
  readonly eva: string | null;
  /** What is missing, s. */
  readonly shortS: number;
  readonly causes: readonly SaidCause[];
  readonly sentence: string;
}

/** A minimal conflict in words. */
export interface SaidClash {
  readonly causes: readonly SaidCause[];
  readonly certainty: Clash["certainty"];
  readonly scope: Clash["scope"];
  readonly minimal: boolean;
  /** What is missing where the conflict is one loop of times, s; else null. */
  readonly shortS: number | null;
  readonly sentence: string;
}

/** Why a task is not on the day, or what is wrong with the day; grows while the run goes on. */
export interface WhyReport {
  /** The task asked about; null when it is about the schedule itself. */
  readonly task: string | null;
  /**
   * looking: not known yet. placed, sound: nothing to explain. fits: in the order as it is. rearranged: only when others move.
   * conflict: something has to give.
   */
  readonly state: "looking" | "placed" | "sound" | "fits" | "rearranged" | "conflict";
  readonly sentence: string;
  /** Where it comes closest in time, by EVA, nearest first. */
  readonly nearest: readonly SaidLoop[];
  readonly conflict: SaidClash | null;
  /** Cheapest first: must-do tasks lost, then worth lost, then the change as a share of the number it changes. */
  readonly relaxations: readonly Relaxation[];
  /** Rules in the conflict that are not for bargaining, each with who owns it. */
  readonly guarded: readonly string[];
  /** Offers looked at, and how many there are. */
  readonly tried: number;
  readonly offers: number;
  readonly stopped: null | "done" | "time";
}

/** The report before anything is known. */
export function blank(task: string | null): WhyReport {
  return {
    task,
    state: "looking",
    sentence: "",
    nearest: [],
    conflict: null,
    relaxations: [],
    guarded: [],
    tried: 0,
    offers: 0,
    stopped: null,
  };
}

type Where = (task: string) => string;

/** Says where a task comes closest. */
export function sayLoop(problem: Problem, { eva, shortS, causes }: Nearest, where: Where): SaidLoop {
  const one = problem.plan.evas[eva];
  const short = minutes(shortS, "up");
  const listed = causes.map((cause) => sayCause(problem, cause, where));
  return {
    eva: one?.id ?? null,
    shortS,
    causes: listed,
    sentence: `${one ? `On ${one.name}` : "Without crew"} at least ${short} ${shortS > 60 ? "are" : "is"} missing in the closest place${listed.length > 0 ? `; relax any of ${listed.length === 1 ? "this" : `these ${listed.length}`} by ${short} to open it` : ""}.`,
  };
}

/** Says a conflict. */
export function sayClash(problem: Problem, clash: Clash, task: string | null, where: Where): SaidClash {
  const causes = clash.causes.map((cause) => sayCause(problem, cause, where));
  return {
    causes,
    certainty: clash.certainty,
    scope: clash.scope,
    minimal: clash.minimal,
    shortS: clash.shortS,
    sentence: clashWords(problem.plan, clash, task),
  };
}

function clashWords(
  plan: Plan,
  { causes, certainty, scope, minimal, shortS }: Clash,
  task: string | null,
): string {
  const name = plan.tasks.find((one) => one.id === task)?.name;
  const what = name === undefined ? "the schedule" : name;
  if (causes.length === 0 && certainty === "searched")
    return `No place was found for ${what}; what stands against it is not known.`;
  if (causes.length === 0) return `Nothing that could be lifted would make room for ${what}.`;
  const staying = causes.filter((one) => one.kind === "placement").length;
  const rules = causes.length - staying;
  const parts = [
    ...(rules > 0 ? [`${rules} ${rules === 1 ? "condition" : "conditions"}`] : []),
    ...(staying > 0 ? [`${staying} placed ${staying === 1 ? "task" : "tasks"}`] : []),
  ];
  const order = scope === "in this order" ? "in the order as it is" : "as the starts stand";
  const together =
    name === undefined
      ? `${named(parts)} cannot all hold ${order}`
      : `${named(parts)} ${rules + staying === 1 ? "leaves" : "leave"} ${what} no place ${order}`;
  const missing = shortS === null ? "" : `; ${minutes(shortS, "up")} missing`;
  const doubt =
    certainty === "searched"
      ? " None was found; that there is none is not proved."
      : minimal
        ? ""
        : " True, though perhaps with more than it takes.";
  return `${together}${missing}.${doubt}`;
}

/** Rules among `causes` that the planner may not give up. */
export function guardedIn(problem: Problem, causes: readonly Cause[]): string[] {
  return causes.flatMap((cause) => {
    const { sentence, owner } = sayCause(problem, cause, () => "");
    return owner === null ? [] : [`${sentence} A rule, not for bargaining: ${owner} decides.`];
  });
}
