import { changesBetween, type Plan, type Schedule, type TaskChange } from "../plan/index.ts";
import { listed } from "./list.ts";
import { crewName, evaName } from "./names.ts";
import { lasting, met } from "./time.ts";

/** What became of one task between two schedules, in words. */
export interface WordedChange {
  readonly task: string;
  readonly name: string;
  readonly must: boolean;
  readonly worth: number;
  readonly kind: TaskChange["kind"];
  readonly sentence: string;
}

/** Every change from `before` to `after` in words, what is lost first; `added` ends the sentence of what is put on. */
export function scheduleChanges(plan: Plan, before: Schedule, after: Schedule, added = ""): WordedChange[] {
  return changesBetween(plan, before, after).map((one) => ({
    task: one.task.id,
    name: one.task.name,
    must: one.task.must,
    worth: one.task.worth,
    kind: one.kind,
    sentence: taskChangeWords(plan, one, added),
  }));
}

/** What became of one task between two schedules, as a sentence. */
export function taskChangeWords(plan: Plan, change: TaskChange, added = ""): string {
  const { task, after, kind, otherEva, otherCrew, byS } = change;
  if (!after) return `${task.name} goes back to the bench.`;
  const crew = listed(after.crew.map((id) => crewName(plan, id)));
  if (kind === "added") return `${task.name} is put on the line, at ${met(after.startS)}${by(crew)}${added}.`;
  const parts = [
    ...(otherEva ? [`moves to ${evaName(plan, after.eva)}`] : []),
    ...(otherCrew ? [`goes to ${crew === "" ? "nobody" : crew}`] : []),
    ...(byS === 0
      ? []
      : [`starts at ${met(after.startS)}, ${lasting(Math.abs(byS), "up")} ${byS > 0 ? "later" : "earlier"}`]),
  ];
  return `${task.name} ${listed(parts)}.`;
}

function by(crew: string): string {
  return crew === "" ? "" : ` by ${crew}`;
}
