import type { Finding, PackReport, Verdict } from "../answers/index.ts";
import type { Placement, Plan, Schedule, Task } from "../plan/index.ts";
import { sameDay } from "./sameday.ts";
import type { DeskState } from "./state.ts";

/**
 * What views read from the desk. None of them makes a new list or map while what it is made from is the same object,
 * so a view is drawn again only when something has changed.
 */

/** The schedule to draw: the held one while a gesture is on, else the plan's. */
export function shownSchedule(state: DeskState): Schedule {
  return state.preview ? state.preview.schedule : state.plan.schedule;
}

/** The plan to draw: with the held durations while a gesture is on; its schedule is `shownSchedule`. */
export function shownPlan(state: DeskState): Plan {
  return state.preview ? state.preview.plan : state.plan;
}

/** The verdict to show: on the held schedule while a gesture is on, else on the plan's. */
export function shownVerdict(state: DeskState): Verdict {
  return state.preview ? state.preview.verdict : state.verdict;
}

const tasksOf = remembered(
  (plan: Plan["tasks"]): ReadonlyMap<string, Task> => new Map(plan.map((task) => [task.id, task])),
);

/** The shown tasks by id. */
export function tasksById(state: DeskState): ReadonlyMap<string, Task> {
  return tasksOf(shownPlan(state).tasks);
}

const placementsOf = remembered(
  (schedule: Schedule): ReadonlyMap<string, Placement> =>
    new Map(schedule.placements.map((placement) => [placement.task, placement])),
);

/** The shown placements by task id. */
export function placementsByTask(state: DeskState): ReadonlyMap<string, Placement> {
  return placementsOf(shownSchedule(state));
}

const benchOf = remembered((tasks: Plan["tasks"]) =>
  remembered((schedule: Schedule): readonly Task[] => {
    const placements = placementsOf(schedule);
    return tasks.filter((task) => !placements.has(task.id));
  }),
);

/** The tasks on the bench, in the plan's order. */
export function benchTasks(state: DeskState): readonly Task[] {
  return benchOf(state.plan.tasks)(shownSchedule(state));
}

/** True when the bench reasons are of the open day: what fitted on the day before need not fit on this one. */
export function benchStands({ benchAsOf, plan }: DeskState): boolean {
  return benchAsOf !== null && sameDay(benchAsOf, plan);
}

const NONE: readonly Finding[] = [];

const findingsOf = remembered((verdict: Verdict): ReadonlyMap<string, readonly Finding[]> => {
  const byTask = new Map<string, Finding[]>();
  for (const finding of verdict.findings) {
    for (const subject of finding.subjects) {
      if (subject.kind !== "task") continue;
      const list = byTask.get(subject.id);
      if (list) list.push(finding);
      else byTask.set(subject.id, [finding]);
    }
  }
  return byTask;
});

/** The shown findings that name a task. */
export function findingsOfTask(state: DeskState, task: string): readonly Finding[] {
  return findingsOf(shownVerdict(state)).get(task) ?? NONE;
}

const packOf = remembered((plan: Plan) =>
  remembered((run: NonNullable<DeskState["run"]>): PackReport | null =>
    run.packed && sameDay({ ...run.plan, schedule: run.packed.schedule }, plan) ? run.packed : null,
  ),
);

/** The last pack's report while the open day is still the one it made; null while something is in hand. */
export function packStands({ plan, run, preview }: DeskState): PackReport | null {
  return run && !preview ? packOf(plan)(run) : null;
}

/** The name of the step that undo would take back; null when there is none. */
export function undoName(state: DeskState): string | null {
  return state.history.undo.at(-1)?.name ?? null;
}

/** The name of the step that redo would do again; null when there is none. */
export function redoName(state: DeskState): string | null {
  return state.history.redo.at(-1)?.name ?? null;
}

/** `make`, asked once for each object. */
function remembered<From extends object, To>(make: (from: From) => To): (from: From) => To {
  const made = new WeakMap<From, { readonly to: To }>();
  return (from) => {
    let entry = made.get(from);
    if (!entry) {
      entry = { to: make(from) };
      made.set(from, entry);
    }
    return entry.to;
  };
}
