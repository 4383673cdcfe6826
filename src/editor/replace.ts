import type { Plan } from "../plan/index.ts";
import type { Taken } from "./taken.ts";

/** Stands for the ground of the map where no place is: nothing is held there, and nothing changes. */
export const NO_PLACE = "";

/** Why what is in hand cannot be given another place, in words that follow its name; null where it can. */
export function placeHindered(plan: Plan, taken: Taken): string | null {
  if (taken.eva !== null) return "an EVA has no place of its own";
  if (taken.edge !== null) return "only its end is in hand";
  if (taken.tasks.length > 1) return "several tasks are in hand: one at a time is given a place";
  const task = plan.tasks.find((one) => one.id === taken.anchor);
  if (!task) return "the plan does not have it";
  if (task.crew.count === 0) return "nobody goes out for it";
  if (task.endPlace !== undefined && task.endPlace !== task.place)
    return "it leads from one place to another: both stand in its fields";
  return null;
}

/** The plan with what is in hand at another place; the same plan where it is there already or may not be. Its time is not touched. */
export function placedAt(plan: Plan, taken: Taken, place: string): Plan {
  const known = plan.site.places.some((one) => one.id === place);
  const here = plan.tasks.find((one) => one.id === taken.anchor);
  if (!known || !here || here.place === place || placeHindered(plan, taken) !== null) return plan;
  const tasks = plan.tasks.map((task) => {
    if (task !== here) return task;
    // An end place that only repeats the place goes along.
    return { ...task, place, ...(task.endPlace === undefined ? {} : { endPlace: place }) };
  });
  return { ...plan, tasks };
}
