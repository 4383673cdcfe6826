import type { Prepared } from "./prepared.ts";

/** The name of the place with index `place`. */
export function placeName(prepared: Prepared, place: number): string {
  return prepared.plan.site.places[place]?.name ?? "an unknown place";
}
