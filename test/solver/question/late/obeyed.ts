import type { LateEntry } from "../../../../src/answers/index.ts";
import { duration } from "../../../../src/kernel/index.ts";
import type { Plan, Schedule } from "../../../../src/plan/index.ts";

/** `plan` with one task lasting `bySeconds` longer (shorter when negative), no less than nothing. */
export function latePlan(plan: Plan, task: string, bySeconds: number): Plan {
  return {
    ...plan,
    tasks: plan.tasks.map((one) =>
      one.id === task
        ? {
            ...one,
            duration: { likelyS: duration(Math.max(0, one.duration.likelyS + bySeconds)) },
          }
        : one,
    ),
  };
}

/** The day as a cell has it: what it drops left out, what it moves or takes up where it then stands. */
export function lateSchedule(schedule: Schedule, { drop, moves }: LateEntry): Schedule {
  const other = new Set([...drop, ...moves.map(({ task }) => task)]);
  return { placements: [...schedule.placements.filter(({ task }) => !other.has(task)), ...moves] };
}
