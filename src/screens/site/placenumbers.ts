import type { TimeWindow } from "../../editor/index.ts";
import { type Plan, type Schedule, tasksById } from "../../plan/index.ts";

/** The tasks that are on the line in `window`, by place and in order of start; one that ends elsewhere stands at both its places. */
export function tasksByPlace(
  plan: Plan,
  schedule: Schedule,
  { startS, endS }: TimeWindow,
): ReadonlyMap<string, readonly string[]> {
  const tasks = tasksById(plan);
  const found = new Map<string, string[]>();
  for (const placement of schedule.placements.toSorted((a, b) => a.startS - b.startS)) {
    const task = tasks.get(placement.task);
    if (!task || placement.startS >= endS || placement.startS + task.duration.likelyS <= startS) continue;
    for (const place of new Set([task.place, task.endPlace])) {
      if (place !== undefined) found.set(place, [...(found.get(place) ?? []), task.id]);
    }
  }
  return found;
}
