import type { Place } from "../plan/index.ts";
import type { Placed } from "./placed.ts";
import type { Prepared } from "./prepared.ts";

/** Where a task begins; null where it names no place. */
export function pointOf(prepared: Prepared, { task, place }: Placed): Place | null {
  return task.place === undefined ? null : (prepared.plan.site.places[place] ?? null);
}

/** Where a task ends; null where it names no place at all. */
export function endPointOf(prepared: Prepared, { task, endPlace }: Placed): Place | null {
  if (task.place === undefined && task.endPlace === undefined) return null;
  return prepared.plan.site.places[endPlace] ?? null;
}
