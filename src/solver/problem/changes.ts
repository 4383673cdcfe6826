import type { Change } from "../../answers/index.ts";
import { changesBetween, type Plan, type Schedule, type TaskChange } from "../../plan/index.ts";
import { crewName, lasting, listed, met } from "../../words/index.ts";

/** Every change from `before` to `after` in words, what is lost first; see changesBetween. */
export function changesOf(plan: Plan, before: Schedule, after: Schedule): Change[] {
  return changesBetween(plan, before, after).map((one) => ({
    task: one.task.id,
    name: one.task.name,
    must: one.task.must,
    worth: one.task.worth,
    kind: one.kind,
    sentence: said(plan, one),
  }));
}

function said(plan: Plan, { task, kind, after, otherEva, otherCrew, byS }: TaskChange): string {
  if (!after) return `${task.name} goes back to the bench.`;
  if (kind === "added")
    return `${task.name} is put on at ${met(after.startS)}: without it no day without a breach was found.`;
  const crew = listed(after.crew.map((id) => crewName(plan, id)));
  const parts = [
    ...(otherEva ? [`moves to ${plan.evas.find((eva) => eva.id === after.eva)?.name ?? "no EVA"}`] : []),
    ...(otherCrew ? [`goes to ${crew}`] : []),
    ...(byS === 0
      ? []
      : [`starts at ${met(after.startS)}, ${lasting(Math.abs(byS), "up")} ${byS > 0 ? "later" : "earlier"}`]),
  ];
  return `${task.name} ${listed(parts)}.`;
}
