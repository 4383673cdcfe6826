import type { Plan, Schedule } from "../plan/index.ts";

/** What a schedule changes of the plan's own, one sentence for each task: what is lost first. */
export function changesOf(plan: Plan, schedule: Schedule): readonly string[] {
  const was = new Map(plan.schedule.placements.map((spot) => [spot.task, spot]));
  const now = new Map(schedule.placements.map((spot) => [spot.task, spot]));
  const crewNames = (ids: readonly string[]): string =>
    ids.map((id) => plan.crew.find((one) => one.id === id)?.name ?? id).join(" and ");
  const sentences = plan.tasks.flatMap((task): readonly string[] => {
    const before = was.get(task.id);
    const after = now.get(task.id);
    if (before && !after) return [`${task.name} is dropped.`];
    if (!before && after)
      return [`${task.name} is added, at ${clock(after.startS)} by ${crewNames(after.crew)}.`];
    if (!before || !after) return [];
    if (before.crew.toSorted().join() !== after.crew.toSorted().join() || before.eva !== after.eva)
      return [`${task.name} goes to ${crewNames(after.crew)}, at ${clock(after.startS)}.`];
    if (before.startS === after.startS) return [];
    const byMin = Math.ceil(Math.abs(after.startS - before.startS) / 60);
    return [`${task.name} begins ${byMin} min ${after.startS > before.startS ? "later" : "earlier"}.`];
  });
  // What is lost is read first.
  const lost = (sentence: string): number => (sentence.endsWith(" is dropped.") ? 0 : 1);
  return sentences.toSorted((a, b) => lost(a) - lost(b));
}

/** h:mm of mission time, the begun minute not counted. */
function clock(atS: number): string {
  const minutes = Math.floor(atS / 60);
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, "0")}`;
}
