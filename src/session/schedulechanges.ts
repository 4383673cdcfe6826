import type { Change } from "../answers/index.ts";
import { changesBetween, type Plan, type Schedule, type TaskChange } from "../plan/index.ts";
import { crewName, lasting, listed, met } from "../words/index.ts";

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
  const crew = listed(after.crew.map((id) => crewName(plan, id)));
  if (kind === "added") return `${task.name} is added, at ${met(after.startS)} by ${crew}.`;
  if (otherEva || otherCrew) return `${task.name} goes to ${crew}, at ${met(after.startS)}.`;
  return `${task.name} begins ${lasting(Math.abs(byS), "up")} ${byS > 0 ? "later" : "earlier"}.`;
}
