import { type Plan, type Schedule, tasksById } from "../plan/index.ts";
import type { Course } from "./course.ts";

/** Samples and the containers that hold any, added up over the stay as the tasks end, kg: a stair of steps. */
export function returnMassCourse(plan: Plan, schedule: Schedule): Course {
  const tasks = tasksById(plan);
  const empty = new Map(plan.containers.map((container) => [container.id, container.emptyMassKg]));
  const ends = schedule.placements
    .flatMap((placement) => {
      const task = tasks.get(placement.task);
      return task?.sample
        ? [{ atS: placement.startS + task.duration.likelyS, sample: task.sample, id: task.id }]
        : [];
    })
    .toSorted((a, b) => a.atS - b.atS || (a.id < b.id ? -1 : 1));
  const used = new Set<string>();
  const points: { atS: number; value: number }[] = [{ atS: 0, value: 0 }];
  let sum = 0;
  for (const { atS, sample } of ends) {
    points.push({ atS, value: sum });
    sum += sample.massKg + (used.has(sample.container) ? 0 : (empty.get(sample.container) ?? 0));
    used.add(sample.container);
    points.push({ atS, value: sum });
  }
  points.push({ atS: Math.max(plan.stay.lengthS, ends.at(-1)?.atS ?? 0), value: sum });
  return { points };
}
