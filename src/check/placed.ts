import { after, type Interval } from "../kernel/index.ts";
import type { Eva, Placement, Schedule, Task } from "../plan/index.ts";
import type { Prepared } from "./prepared.ts";

/** A task on the day line. */
export interface Placed {
  readonly task: Task;
  readonly placement: Placement;
  /** When it is under way (S1). */
  readonly span: Interval;
  /** The EVA it names, when there is such an EVA. */
  readonly eva: Eva | null;
  /** Place indices; the lander where a task names none. */
  readonly place: number;
  readonly endPlace: number;
}

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

/** A placement of `task` read: `Prepared` remembers it, so that the same placement is the same `Placed` in every schedule. */
export function placedOf(
  { ways, evas }: Pick<Prepared, "ways" | "evas">,
  placement: Placement,
  task: Task,
): Placed {
  const { index, lander } = ways;
  const place = (task.place === undefined ? undefined : index.get(task.place)) ?? lander;
  return {
    task,
    placement,
    span: { startS: placement.startS, endS: after(placement.startS, task.duration.likelyS) },
    eva: placement.eva === null ? null : (evas.get(placement.eva) ?? null),
    place,
    endPlace: (task.endPlace === undefined ? undefined : index.get(task.endPlace)) ?? place,
  };
}

function inOrder(a: Placed, b: Placed): number {
  return (
    a.span.startS - b.span.startS ||
    a.span.endS - b.span.endS ||
    (a.task.id < b.task.id ? -1 : a.task.id > b.task.id ? 1 : 0)
  );
}
