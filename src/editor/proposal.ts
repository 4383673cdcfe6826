import { instant } from "../kernel/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import type { Target } from "./propose.ts";
import { type Manner, slid, type Stuck, type WalkS } from "./slide.ts";
import { placedAt } from "./replace.ts";
import { type Edge, stretched, withLength } from "./stretch.ts";
import type { Taken } from "./taken.ts";
import { movedTogether } from "./together.ts";

/** What a gesture makes of the day. Nothing is checked here: the judge says what is wrong with it. */
export interface Proposal {
  /** The plan with what the gesture changes of the tasks themselves; the same object where that is nothing. */
  readonly plan: Plan;
  readonly schedule: Schedule;
  /** Others that should have been pushed and cannot be. */
  readonly stuck: readonly Stuck[];
}

/** The day of `plan` with what is taken at `target`, from the plan's own schedule in one step; others as `manner` says. */
export function proposalOf(
  plan: Plan,
  taken: Taken,
  target: Target,
  manner: Manner,
  walkS: (plan: Plan) => WalkS,
): Proposal {
  if (target.at === "place")
    return { plan: placedAt(plan, taken, target.place), schedule: plan.schedule, stuck: [] };
  const edged =
    taken.edge !== null && target.at === "line"
      ? withEdge(plan, taken.anchor, taken.edge, target.startS)
      : null;
  const made = edged ?? { plan, schedule: movedTogether(plan, plan.schedule, taken, target) };
  const untouched = edged !== null && edged.plan === plan;
  if (manner !== "slide" || target.at !== "line" || untouched) return { ...made, stuck: [] };
  return { plan: made.plan, ...slid(made.plan, made.schedule, taken.tasks, walkS(made.plan)) };
}

/** The day with one end of a placed task at `atS`; the same plan when that is where it is. */
function withEdge(plan: Plan, id: string, edge: Edge, atS: number): Omit<Proposal, "stuck"> {
  const { schedule } = plan;
  const span = spanOf(plan, schedule, id);
  if (!span) return { plan, schedule };
  const next = stretched(span, edge, atS);
  const tasks = plan.tasks.map((task) => (task.id === id ? withLength(task, next.lengthS) : task));
  if (next.startS === span.startS && tasks.every((task, i) => task === plan.tasks[i])) {
    return { plan, schedule };
  }
  const placements = schedule.placements.map((one) =>
    one.task === id ? { ...one, startS: instant(next.startS) } : one,
  );
  return { plan: { ...plan, tasks, schedule: { placements } }, schedule: { placements } };
}

/** Where a placed task stands at its likely length, seconds; null when it is not placed. */
export function spanOf(
  plan: Plan,
  schedule: Schedule,
  id: string,
): { readonly startS: number; readonly endS: number } | null {
  const placement = schedule.placements.find((one) => one.task === id);
  if (!placement) return null;
  const lengthS = plan.tasks.find((one) => one.id === id)?.duration.likelyS ?? 0;
  return { startS: placement.startS, endS: placement.startS + lengthS };
}
