import { type Instant, instant } from "../kernel/index.ts";
import type { Placement, Plan, Schedule, Task } from "../plan/index.ts";

/** Changes of a schedule as values: each takes a schedule and gives a new one, the given one untouched. */

/** Where a task is put: the EVA and crew that do it and its start. */
export interface PlaceOnDay {
  readonly eva: string | null;
  readonly crew: readonly string[];
  readonly startS: Instant;
}

/** `task` at `place`: moved there when it was placed elsewhere, added when it was on the bench. */
export function placed(schedule: Schedule, task: string, place: PlaceOnDay): Schedule {
  const placement: Placement = { task, eva: place.eva, crew: [...place.crew], startS: place.startS };
  const known = schedule.placements.some((one) => one.task === task);
  return {
    placements: known
      ? schedule.placements.map((one) => (one.task === task ? placement : one))
      : [...schedule.placements, placement],
  };
}

/** `tasks` off the day line. */
export function benched(schedule: Schedule, tasks: readonly string[]): Schedule {
  return { placements: schedule.placements.filter((one) => !tasks.includes(one.task)) };
}

/** `tasks` each later by `byS` (earlier when negative); those on the bench stay there. The same schedule for nothing. */
export function shifted(schedule: Schedule, tasks: readonly string[], byS: number): Schedule {
  if (byS === 0 || !schedule.placements.some((one) => tasks.includes(one.task))) return schedule;
  return {
    placements: schedule.placements.map((one) =>
      tasks.includes(one.task) ? { ...one, startS: instant(one.startS + byS) } : one,
    ),
  };
}

/** `tasks` that one crew member does, each handed to the next of its EVA; tasks for all who are out stay as they are. */
export function handedOver(plan: Plan, schedule: Schedule, tasks: readonly string[]): Schedule {
  let some = false;
  const placements = schedule.placements.map((one) => {
    const crew = plan.evas.find((eva) => eva.id === one.eva)?.crew ?? [];
    const [from] = one.crew;
    if (!tasks.includes(one.task) || one.crew.length !== 1 || from === undefined) return one;
    const next = crew[(crew.indexOf(from) + 1) % crew.length];
    if (next === undefined || next === from) return one;
    some = true;
    return { ...one, crew: [next] };
  });
  return some ? { placements } : schedule;
}

/** Two placed tasks with each other's crew and EVA, each at its own time; the same schedule when that changes nothing. */
export function crewSwapped(schedule: Schedule, a: string, b: string): Schedule {
  const one = schedule.placements.find(({ task }) => task === a);
  const other = schedule.placements.find(({ task }) => task === b);
  if (!one || !other || one.crew.length !== other.crew.length || one.crew.length === 0) return schedule;
  if (one.eva === other.eva && one.crew.every((member) => other.crew.includes(member))) return schedule;
  return {
    placements: schedule.placements.map((placement) => {
      if (placement === one) return { ...one, eva: other.eva, crew: [...other.crew] };
      return placement === other ? { ...other, eva: one.eva, crew: [...one.crew] } : placement;
    }),
  };
}

/** The parts of a task's placement that a pin can hold. */
export type PinPart = "start" | "eva" | "crew";

/** `task` pinned at `placement` in the given parts; other parts of its pin stay. */
export function pinned(task: Task, placement: Placement, parts: readonly PinPart[]): Task {
  return {
    ...task,
    pin: {
      ...task.pin,
      ...(parts.includes("start") ? { startS: placement.startS } : {}),
      ...(parts.includes("eva") && placement.eva !== null ? { eva: placement.eva } : {}),
      ...(parts.includes("crew") ? { crew: [...placement.crew] } : {}),
    },
  };
}

/** `task` without the given parts of its pin; without a pin when nothing of it is left. */
export function unpinned(task: Task, parts: readonly PinPart[]): Task {
  const { pin, ...rest } = task;
  if (!pin) return task;
  const left: NonNullable<Task["pin"]> = {
    ...(pin.startS !== undefined && !parts.includes("start") ? { startS: pin.startS } : {}),
    ...(pin.eva !== undefined && !parts.includes("eva") ? { eva: pin.eva } : {}),
    ...(pin.crew !== undefined && !parts.includes("crew") ? { crew: pin.crew } : {}),
  };
  return Object.keys(left).length === 0 ? rest : { ...rest, pin: left };
}

/** What a step with these tasks is called: "Move Quick sample", "Move 3 tasks". */
export function stepName(verb: string, plan: Plan, tasks: readonly string[]): string {
  const only = tasks.length === 1 ? plan.tasks.find((task) => task.id === tasks[0]) : undefined;
  return `${verb} ${only ? only.name : `${tasks.length} tasks`}`;
}
