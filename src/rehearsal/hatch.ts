import type { Eva, Plan } from "../plan/index.ts";
import type { Spot } from "./projection.ts";
import { landerOf, type WalkS, wayS } from "./walking.ts";

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
