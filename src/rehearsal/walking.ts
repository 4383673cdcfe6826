import type { Eva, Plan } from "../plan/index.ts";
import type { Spot } from "./projection.ts";

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

/** The latest egress that lets an EVA's crew reach what they do on it in time; Infinity where they do nothing. */
export function leaveS(plan: Plan, eva: Eva, spots: readonly Spot[], walkS: WalkS): number {
  const lander = landerOf(plan);
  const tasks = new Map(plan.tasks.map((task) => [task.id, task]));
  const starts = spots
    .filter((spot) => spot.eva === eva.id)
    .map((spot) => spot.startS - wayS(walkS, lander, tasks.get(spot.task)?.place) - eva.egressWorkS);
  return Math.min(Infinity, ...starts);
}

/** When all of an EVA's crew can be inside after what they do on it, at the planned pace; -Infinity where they do nothing. */
export function homeS(plan: Plan, eva: Eva, spots: readonly Spot[], walkS: WalkS): number {
  const lander = landerOf(plan);
  const tasks = new Map(plan.tasks.map((task) => [task.id, task]));
  const ends = spots
    .filter((spot) => spot.eva === eva.id)
    .map((spot) => {
      const task = tasks.get(spot.task);
      return spot.endS + wayS(walkS, task?.endPlace ?? task?.place, lander) + eva.ingressWorkS;
    });
  return Math.max(-Infinity, ...ends);
}
