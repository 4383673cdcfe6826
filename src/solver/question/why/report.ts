import type { TriedRelaxation, WhyConflict, WhyReport } from "../../../answers/index.ts";
import type { Plan } from "../../../plan/index.ts";
import { gridName, listed } from "../../../words/index.ts";
import type { Problem } from "../../problem/problem.ts";
import type { Cause } from "./cause.ts";
import type { Conflict } from "./conflict.ts";
import type { Scope } from "./consistency.ts";
import { sayCause, type Where } from "./words.ts";

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

/** Says a conflict. */
export function sayConflict(
  problem: Problem,
  conflict: Conflict,
  task: string | null,
  where: Where,
): WhyConflict {
  const causes = conflict.causes.map((cause) => sayCause(problem, cause, where));
  return {
    causes,
    certainty: conflict.certainty,
    scope: conflict.scope,
    minimal: conflict.minimal,
    sentence: conflictWords(problem.plan, conflict, task),
  };
}

function conflictWords(
  plan: Plan,
  { causes, certainty, scope, minimal }: Conflict,
  task: string | null,
): string {
  const name = plan.tasks.find((one) => one.id === task)?.name;
  const what = name ?? "the schedule";
  if (causes.length === 0)
    return certainty === "searched"
      ? `No place was found for ${what}; what stands against it is not known.`
      : `No single limit that was tried, left out, makes room for ${what}.`;
  const parts = listed(partsOf(causes));
  const where = orderWords(plan, scope);
  if (certainty === "searched")
    return `With ${parts} no place was found for ${what} ${where}; that there is none is not proved.`;
  const leaves = causes.length === 1 ? "leaves" : "leave";
  const together =
    name === undefined
      ? `${parts} cannot all be kept ${where}`
      : `${parts} ${leaves} ${what} no place ${where}`;
  return `${together}.${minimal ? "" : " Whether all of them are needed for that was not checked."}`;
}

/** How many conditions and how many placed tasks there are among `causes`. */
function partsOf(causes: readonly Cause[]): string[] {
  const staying = causes.filter((one) => one.kind === "placement").length;
  const rules = causes.length - staying;
  return [
    ...(rules > 0 ? [`${rules} ${rules === 1 ? "condition" : "conditions"}`] : []),
    ...(staying > 0 ? [`${staying} placed ${staying === 1 ? "task" : "tasks"}`] : []),
  ];
}

function orderWords({ rules: { startGridS } }: Plan, scope: Scope): string {
  if (scope === "as it stands") return "as the starts stand";
  return `in the order as it is${startGridS === 1 ? "" : ` with starts on ${gridName(startGridS)}`}`;
}

/** Rules among `causes` that the planner may not give up. */
export function guardedIn(problem: Problem, causes: readonly Cause[]): string[] {
  return causes.flatMap((cause) => {
    const { sentence, owner } = sayCause(problem, cause, () => "");
    return owner === null ? [] : [`${sentence} A flight rule: ${owner} decides.`];
  });
}
