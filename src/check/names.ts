import type { Prepared } from "./prepared.ts";

/** Names for sentences; an id that names nothing stands for itself. */

export function taskName(prepared: Prepared, id: string): string {
  return prepared.tasks.get(id)?.name ?? id;
}

export function crewName(prepared: Prepared, id: string): string {
  return prepared.walkers.get(id)?.member.name ?? id;
}

export function evaName(prepared: Prepared, id: string): string {
  return prepared.evas.get(id)?.name ?? id;
}

/** The name of the place with index `place`. */
export function placeName(prepared: Prepared, place: number): string {
  return prepared.plan.site.places[place]?.name ?? "an unknown place";
}
