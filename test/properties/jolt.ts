import { instant, random, type Random } from "../../src/kernel/index.ts";
import type { Placement, Plan, Schedule } from "../../src/plan/index.ts";

/** `schedule` with one to three random changes: starts moved, a placement gone, another EVA, one more task, all shifted. */
export function jolt(plan: Plan, schedule: Schedule, seed: number): Schedule {
  const stream = random(seed);
  let placements: Placement[] = schedule.placements.map((one) => ({ ...one }));
  for (let changes = 1 + stream.below(3); changes > 0; changes -= 1)
    placements = change(plan, placements, stream);
  return { placements };
}

function change(plan: Plan, placements: Placement[], stream: Random): Placement[] {
  if (placements.length === 0) return placements;
  const at = stream.below(placements.length);
  const one = placements[at]!;
  const kind = stream.next();
  const put = (next: Placement): Placement[] => placements.map((old, k) => (k === at ? next : old));
  const later = (by: number): Placement => ({
    ...one,
    startS: instant(one.startS + stream.below(2 * by) - by),
  });
  if (kind < 0.5) return put(later(600));
  if (kind < 0.6) return put(later(4000));
  if (kind < 0.7) return placements.filter((_, k) => k !== at);
  const eva = plan.evas[stream.below(plan.evas.length)]!;
  if (kind < 0.8)
    return put(one.eva === null ? one : { ...one, eva: eva.id, crew: eva.crew.slice(0, one.crew.length) });
  if (kind < 0.9) {
    const task = plan.tasks[stream.below(plan.tasks.length)]!;
    if (placements.some((old) => old.task === task.id)) return placements;
    const { count } = task.crew;
    const startS = instant(eva.earliestEgressS + stream.below(12_000));
    return [
      ...placements,
      { task: task.id, eva: count > 0 ? eva.id : null, crew: eva.crew.slice(0, count), startS },
    ];
  }
  const by = stream.below(1200) - 600;
  return placements.map((old) => ({ ...old, startS: instant(old.startS + by) }));
}
