import { type Eva, type Plan, tasksById } from "../plan/index.ts";
import type { ProjectedPlacement } from "./projection.ts";
import type { Between } from "./between.ts";
import { landerOf, wayS } from "./walking.ts";

/** The latest egress that lets an EVA's crew reach what they do on it in time; Infinity where they do nothing. */
export function leaveS(
  plan: Plan,
  eva: Eva,
  placements: readonly Pick<ProjectedPlacement, "task" | "eva" | "startS">[],
  between: Pick<Between, "ways" | "stays">,
): number {
  const lander = landerOf(plan);
  const tasks = tasksById(plan);
  const starts = [
    ...placements
      .filter((placement) => placement.eva === eva.id)
      .map((placement) => placement.startS - wayS(between.ways, lander, tasks.get(placement.task)?.place)),
    ...between.stays
      .filter((stay) => stay.eva === eva.id)
      .map((stay) => stay.startS - wayS(between.ways, lander, stay.place)),
  ];
  return Math.min(Infinity, ...starts) - eva.egressWorkS;
}

/** When all of an EVA's crew can be inside after what they do on it, at the planned pace; -Infinity where they do nothing. */
export function homeS(
  plan: Plan,
  eva: Eva,
  placements: readonly ProjectedPlacement[],
  between: Between,
): number {
  const lander = landerOf(plan);
  const tasks = tasksById(plan);
  const ends = [
    ...placements
      .filter((placement) => placement.eva === eva.id)
      .map((placement) => {
        const task = tasks.get(placement.task);
        return placement.endS + wayS(between.ways, task?.endPlace ?? task?.place, lander);
      }),
    ...between.stays
      .filter((stay) => stay.eva === eva.id)
      .map((stay) => stay.endS + wayS(between.ways, stay.endPlace, lander)),
  ];
  return Math.max(-Infinity, ...ends) + eva.ingressWorkS;
}
