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
    const otherCrew = old !== null && there !== null && !sameMembers(old.crew, there.crew);
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

/** True when both put the same tasks at the same places of the day, in whatever order. */
export function sameSchedule(a: Schedule, b: Schedule): boolean {
  if (a === b) return true;
  if (a.placements.length !== b.placements.length) return false;
  const others = new Map(b.placements.map((one) => [one.task, one]));
  return a.placements.every((one) => {
    const other = others.get(one.task);
    return other !== undefined && samePlacement(one, other);
  });
}

/** True when both are the same start on the same EVA by the same crew, in whatever order these are named. */
export function samePlacement(a: Placement, b: Placement): boolean {
  return a === b || (a.startS === b.startS && a.eva === b.eva && sameMembers(a.crew, b.crew));
}

/** True when both lists name the same. */
export function sameMembers(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((one) => b.includes(one));
}
