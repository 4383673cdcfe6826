import type { Plan } from "./plan.ts";
import type { Placement, Schedule } from "./schedule.ts";
import type { Task } from "./task.ts";

/** What became of one task between two schedules. */
export interface TaskChange {
  readonly task: Task;
  readonly kind: "dropped" | "added" | "moved";
  readonly before: Placement | null;
  readonly after: Placement | null;
  readonly otherEva: boolean;
  readonly otherCrew: boolean;
  /** How much later it starts, s; 0 where it is not on both. */
  readonly byS: number;
}

/** Every change from `before` to `after`: what is dropped first, of that must-do first, then the most worth; the rest in the plan's order. */
export function changesBetween(plan: Plan, before: Schedule, after: Schedule): TaskChange[] {
  const was = new Map(before.placements.map((one) => [one.task, one]));
  const now = new Map(after.placements.map((one) => [one.task, one]));
  const changes = plan.tasks.flatMap((task): TaskChange[] => {
    const old = was.get(task.id) ?? null;
    const there = now.get(task.id) ?? null;
    if (!old && !there) return [];
    const otherEva = old !== null && there !== null && old.eva !== there.eva;
    const otherCrew = old !== null && there !== null && people(old) !== people(there);
    const byS = old && there ? there.startS - old.startS : 0;
    if (old && there && !otherEva && !otherCrew && byS === 0) return [];
    const kind = !there ? "dropped" : !old ? "added" : "moved";
    return [{ task, kind, before: old, after: there, otherEva, otherCrew, byS }];
  });
  const rank = ({ kind, task }: TaskChange): number => (kind !== "dropped" ? 2 : task.must ? 0 : 1);
  return changes.toSorted(
    (a, b) => rank(a) - rank(b) || (a.kind === "dropped" ? b.task.worth - a.task.worth : 0),
  );
}

function people({ crew }: Placement): string {
  return crew.toSorted().join(" ");
}
