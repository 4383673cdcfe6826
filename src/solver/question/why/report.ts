import type { TriedRelaxation, WhyConflict, WhyReport } from "../../../answers/index.ts";
import type { Plan } from "../../../plan/index.ts";
import { gridName, listed } from "../../../words/index.ts";
import type { Problem } from "../../problem/problem.ts";
import type { Cause } from "./cause.ts";
import type { Clash } from "./clash.ts";
import { sayCause } from "./words.ts";

/** The report before anything is known. */
export function blank(task: string | null): WhyReport<TriedRelaxation> {
  return {
    task,
    state: "looking",
    sentence: "",
    conflict: null,
    relaxations: [],
    guarded: [],
    tried: 0,
    offers: 0,
    stopped: null,
  };
}

type Where = (task: string) => string;

/** Says a conflict. */
export function sayClash(problem: Problem, clash: Clash, task: string | null, where: Where): WhyConflict {
  const causes = clash.causes.map((cause) => sayCause(problem, cause, where));
  return {
    causes,
    certainty: clash.certainty,
    scope: clash.scope,
    minimal: clash.minimal,
    sentence: clashWords(problem.plan, clash, task),
  };
}

function clashWords(plan: Plan, { causes, certainty, scope, minimal }: Clash, task: string | null): string {
  const name = plan.tasks.find((one) => one.id === task)?.name;
  const what = name === undefined ? "the schedule" : name;
  if (causes.length === 0 && certainty === "searched")
    return `No place was found for ${what}; what stands against it is not known.`;
  if (causes.length === 0) return `No single limit that was tried, left out, makes room for ${what}.`;
  const staying = causes.filter((one) => one.kind === "placement").length;
  const rules = causes.length - staying;
  const parts = [
    ...(rules > 0 ? [`${rules} ${rules === 1 ? "condition" : "conditions"}`] : []),
    ...(staying > 0 ? [`${staying} placed ${staying === 1 ? "task" : "tasks"}`] : []),
  ];
  const { startGridS } = plan.rules;
  const grid = startGridS === 1 ? "" : ` with starts on ${gridName(startGridS)}`;
  const order = scope === "in this order" ? `in the order as it is${grid}` : "as the starts stand";
  if (certainty === "searched")
    return `With ${listed(parts)} no place was found for ${what} ${order}; that there is none is not proved.`;
  const together =
    name === undefined
      ? `${listed(parts)} cannot all be kept ${order}`
      : `${listed(parts)} ${rules + staying === 1 ? "leaves" : "leave"} ${what} no place ${order}`;
  return `${together}.${minimal ? "" : " Whether all of them are needed for that was not checked."}`;
}

/** Rules among `causes` that the planner may not give up. */
export function guardedIn(problem: Problem, causes: readonly Cause[]): string[] {
  return causes.flatMap((cause) => {
    const { sentence, owner } = sayCause(problem, cause, () => "");
    return owner === null ? [] : [`${sentence} A flight rule: ${owner} decides.`];
  });
}
