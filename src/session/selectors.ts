import { scoreGain } from "../check/index.ts";
import { remembered } from "../kernel/index.ts";
import type { Finding, PackReport, Score, Verdict } from "../answers/index.ts";
import { type Placement, type Plan, type Schedule, type Task, tasksById } from "../plan/index.ts";
import { sameDay } from "./sameday.ts";
import type { SessionState, Run } from "./state.ts";

/**
 * What views read from the session. None of them makes a new list or map while what it is made from is the same object,
 * so a view is drawn again only when something has changed.
 */

/** The run under way once it has found a better day, while nothing is in hand: that day stands on the line. Null else. */
export function betterDay({
  run,
  preview,
}: SessionState): (Run & { best: Schedule; bestVerdict: Verdict }) | null {
  return !preview && run?.running && hasBest(run) ? run : null;
}

function hasBest(run: Run): run is Run & { best: Schedule; bestVerdict: Verdict } {
  return run.best !== null && run.bestVerdict !== null;
}

/** The schedule to draw: the held one while a gesture is on, the best so far while the packer is at work, else the plan's. */
export function shownSchedule(state: SessionState): Schedule {
  return state.preview?.schedule ?? betterDay(state)?.best ?? state.plan.schedule;
}

/** The plan to draw: with the held durations while a gesture is on; its schedule is `shownSchedule`. */
export function shownPlan(state: SessionState): Plan {
  return state.preview ? state.preview.plan : state.plan;
}

/** The verdict to show: that on the shown schedule. */
export function shownVerdict(state: SessionState): Verdict {
  return state.preview?.verdict ?? betterDay(state)?.bestVerdict ?? state.verdict;
}

/** How the score of the shown day differs: from that before the gesture, or from that of the last better day; null at rest. */
export function scoreChange(state: SessionState): Score | null {
  if (state.preview) return state.preview.difference.score;
  const run = betterDay(state);
  return run && lastGain(run);
}

const lastGain = remembered(({ steps, bestVerdict }: Run): Score | null => {
  const was = steps.at(-2)?.score;
  return was && bestVerdict ? scoreGain(was, bestVerdict.score) : null;
});

/** The shown tasks by id. */
export function shownTasks(state: SessionState): ReadonlyMap<string, Task> {
  return tasksById(shownPlan(state));
}

const placementsOf = remembered(
  (schedule: Schedule): ReadonlyMap<string, Placement> =>
    new Map(schedule.placements.map((placement) => [placement.task, placement])),
);

/** The shown placements by task id. */
export function placementsByTask(state: SessionState): ReadonlyMap<string, Placement> {
  return placementsOf(shownSchedule(state));
}

const benchOf = remembered((tasks: Plan["tasks"]) =>
  remembered((schedule: Schedule): readonly Task[] => {
    const placements = placementsOf(schedule);
    return tasks.filter((task) => !placements.has(task.id));
  }),
);

/** The tasks on the bench, in the plan's order. */
export function benchTasks(state: SessionState): readonly Task[] {
  return benchOf(state.plan.tasks)(shownSchedule(state));
}

/** True when the bench reasons are of the open day: what fitted on the day before need not fit on this one. */
export function isBenchCurrent({ benchAsOf, plan }: SessionState): boolean {
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
export function findingsOfTask(state: SessionState, task: string): readonly Finding[] {
  return findingsOf(shownVerdict(state)).get(task) ?? NONE;
}

const packOf = remembered((plan: Plan) =>
  remembered((run: NonNullable<SessionState["run"]>): PackReport | null =>
    run.packed && sameDay({ ...run.plan, schedule: run.packed.schedule }, plan) ? run.packed : null,
  ),
);

/** The last pack's report while the open day is still the one it made; null while something is in hand. */
export function currentPack({ plan, run, preview }: SessionState): PackReport | null {
  return run && !preview ? packOf(plan)(run) : null;
}

/** The name of the step that undo would take back; null when there is none. */
export function undoName(state: SessionState): string | null {
  return state.history.undo.at(-1)?.name ?? null;
}

/** The name of the step that redo would do again; null when there is none. */
export function redoName(state: SessionState): string | null {
  return state.history.redo.at(-1)?.name ?? null;
}
