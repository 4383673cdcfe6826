import { met } from "../words/index.ts";
import type { Placed } from "./placed.ts";
import type { Prepared } from "./prepared.ts";

/** The name of the place with index `place`. */
export function placeName(prepared: Prepared, place: number): string {
  return prepared.plan.site.places[place]?.name ?? "an unknown place";
}

/** When a task is under way: `Survey runs 1:00 MET to 1:30 MET`. */
export function runsWords({ task, span }: Placed): string {
  return `${task.name} runs ${met(span.startS)} to ${met(span.endS)}`;
}
