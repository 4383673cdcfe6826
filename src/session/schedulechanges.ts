import type { Change } from "../answers/index.ts";
import { changesBetween, type Plan, type Schedule, type TaskChange } from "../plan/index.ts";

/** What a schedule changes of the plan's own, one sentence for each task: what is lost first, of that must-do first. */
export function changesOf(plan: Plan, schedule: Schedule): readonly Change[] {
  return changesBetween(plan, plan.schedule, schedule).map((one) => ({
    task: one.task.id,
    name: one.task.name,
    must: one.task.must,
    worth: one.task.worth,
    kind: one.kind,
    sentence: said(plan, one),
  }));
}

function said(plan: Plan, { task, after, kind, otherEva, otherCrew, byS }: TaskChange): string {
  if (!after) return `${task.name} is dropped.`;
  const crew = after.crew.map((id) => plan.crew.find((one) => one.id === id)?.name ?? id).join(" and ");
  if (kind === "added") return `${task.name} is added, at ${clock(after.startS)} by ${crew}.`;
  if (otherEva || otherCrew) return `${task.name} goes to ${crew}, at ${clock(after.startS)}.`;
  return `${task.name} begins ${Math.ceil(Math.abs(byS) / 60)} min ${byS > 0 ? "later" : "earlier"}.`;
}

/** h:mm of mission time, the begun minute not counted. */
function clock(atS: number): string {
  const minutes = Math.floor(atS / 60);
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, "0")}`;
}
