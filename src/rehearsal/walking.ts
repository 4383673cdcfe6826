import type { Plan } from "../plan/index.ts";

/** Seconds to walk from one place to another at the planned speed; null where there is no way. */
export type WalkS = (from: string, to: string) => number | null;

/** Seconds of the way between two places; none where they are the same or one of them is no place, or there is no way: the judge tells of that. */
export function wayS(walkS: WalkS, from: string | undefined, to: string | undefined): number {
  return from === undefined || to === undefined || from === to ? 0 : (walkS(from, to) ?? 0);
}

/** The lander's place. */
export function landerOf(plan: Plan): string | undefined {
  return plan.site.places.find((place) => place.kind === "lander")?.id;
}
