import { after, type Interval } from "../kernel/index.ts";
import type { Eva, Placement, Task } from "../plan/index.ts";
import type { Ways } from "../terrain/index.ts";

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

/** A placement of `task` read: `Prepared` remembers it, so that the same placement is the same `Placed` in every schedule. */
export function placedOf(
  { ways, evas }: { readonly ways: Ways; readonly evas: ReadonlyMap<string, Eva> },
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
