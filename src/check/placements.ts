import type { Placement, Schedule } from "../plan/index.ts";
import type { Placed } from "./placed.ts";
import type { Prepared } from "./prepared.ts";

/** The placements of a schedule in order of start, then end, then task id; and what cannot be one. */
export interface Placements {
  readonly placed: readonly Placed[];
  readonly byTask: ReadonlyMap<string, Placed>;
  /** Placements that name no task of the plan, or a task that is placed already. */
  readonly stray: readonly Placement[];
}

/** Reads the placements of `schedule`; of a task placed twice the earlier one counts. */
export function placementsOf(prepared: Prepared, schedule: Schedule): Placements {
  const read: Placed[] = [];
  const stray: Placement[] = [];
  for (const placement of schedule.placements) {
    const task = prepared.tasks.get(placement.task);
    if (task) read.push(prepared.placed(placement, task));
    else stray.push(placement);
  }
  read.sort(inOrder);
  const byTask = new Map<string, Placed>();
  const placed = read.filter((one) => {
    if (byTask.has(one.task.id)) {
      stray.push(one.placement);
      return false;
    }
    byTask.set(one.task.id, one);
    return true;
  });
  return { placed, byTask, stray };
}

function inOrder(a: Placed, b: Placed): number {
  return (
    a.span.startS - b.span.startS ||
    a.span.endS - b.span.endS ||
    (a.task.id < b.task.id ? -1 : a.task.id > b.task.id ? 1 : 0)
  );
}
