import { gridFrom, instant } from "../../kernel/index.ts";
import { type LagLink, leavesInstrument, type Plan, type Schedule, type Task } from "../../plan/index.ts";
import { openingsOf } from "../problem/openings.ts";
import { startsIn } from "../problem/starts.ts";
import { type Project, projectFrom } from "./problem.ts";
import { isSound } from "./soundness.ts";

/** A project compiled from a plan: activity a is the plan's task a. */
export interface ProjectProblem extends Project {
  readonly plan: Plan;
}

/**
 * `plan` as a project, or null where it is not one: a task with crew, an optional one, or one that rules beyond
 * equipment, windows, sun, relay, pins and lags speak of (samples, instruments, hot ground, distances, groups), or that is pinned to a start
 * off the grid.
 *
 * With all starts on the grid a lag is as good as the next whole multiple of it, and nothing begins inside the step in which a task
 * ends: lags and lengths are taken up to the grid, which loses no schedule and gains none. The finish counts in whole steps.
 */
export function projectOf(plan: Plan): ProjectProblem | null {
  if (plan.tasks.length === 0 || !plan.tasks.every(isBare)) return null;
  if (plan.groups.length > 0 || plan.links.some((link) => link.type === "apart")) return null;
  const hot = plan.site.keepOuts.some(({ kind }) => kind === "hot");
  if (hot && plan.tasks.some((task) => task.place !== undefined || task.endPlace !== undefined)) return null;

  const gridS = plan.rules.startGridS;
  if (plan.tasks.some((task) => (task.pin?.startS ?? 0) % gridS !== 0)) return null;

  const index = new Map(plan.tasks.map((task, a) => [task.id, a]));
  const lags: { from: number; to: number; lag: number }[] = [];
  for (const link of plan.links) {
    if (link.type !== "lag") continue;
    const from = index.get(link.from.task)!;
    const to = index.get(link.to.task)!;
    const shift = offset(plan.tasks[from]!, link.from) - offset(plan.tasks[to]!, link.to);
    if (link.leastS !== undefined) lags.push({ from, to, lag: gridFrom(link.leastS + shift, gridS) });
    if (link.greatestS !== undefined)
      lags.push({ from: to, to: from, lag: gridFrom(-link.greatestS - shift, gridS) });
  }
  const windowsOf = openingsOf(plan);
  const opens = plan.tasks.map((task) => startsIn(windowsOf(task), gridS, task));
  const lengths = plan.tasks.map((task) => gridFrom(task.duration.likelyS, gridS));
  const unitS = commonDivisor([
    ...lengths,
    ...lags.map(({ lag }) => lag),
    ...opens.flat().map((one) => one.fromS),
  ]);
  const project = projectFrom({
    unitS,
    lengths: lengths.map((length) => length / unitS),
    capacities: plan.equipment.map(({ count }) => count),
    demands: plan.tasks.map((task) => demandOf(task, plan)),
    lags: lags.map((edge) => ({ ...edge, lag: edge.lag / unitS })),
    // The last start of an opening may be rounded down: starts that matter are sums of the numbers above.
    openings: opens.map((list) =>
      list.map(({ fromS, toS }) => ({ from: fromS / unitS, to: Math.floor(toS / unitS) })),
    ),
  });
  return { ...project, plan };
}

/** `start` (units, by activity) as the plan's schedule. */
export function scheduleOf({ plan, unitS }: ProjectProblem, start: Int32Array): Schedule {
  return {
    placements: plan.tasks.map((task, a) => ({
      task: task.id,
      eva: null,
      crew: [],
      startS: instant(start[a]! * unitS),
    })),
  };
}

/** The starts of `schedule` in units, when it places every task soundly on whole units; null otherwise. */
export function startsOf(problem: ProjectProblem, schedule: Schedule): Int32Array | null {
  const { plan, unitS } = problem;
  const placed = new Map(schedule.placements.map(({ task, startS }) => [task, startS]));
  const starts = plan.tasks.map(({ id }) => (placed.get(id) ?? NaN) / unitS);
  if (!starts.every(Number.isInteger)) return null;
  const start = Int32Array.from(starts);
  return isSound(problem, start) ? start : null;
}

function isBare(task: Task): boolean {
  const pinned = task.pin?.eva !== undefined || (task.pin?.crew?.length ?? 0) > 0;
  return (
    task.crew.count === 0 &&
    task.crew.named.length === 0 &&
    task.crew.qualification === undefined &&
    task.must &&
    !leavesInstrument(task) &&
    task.sample === undefined &&
    !pinned
  );
}

function offset(task: Task, { end }: LagLink["from"]): number {
  return end === "end" ? task.duration.likelyS : 0;
}

function demandOf(task: Task, plan: Plan): number[] {
  const row = plan.equipment.map(() => 0);
  for (const { equipment, count } of task.equipment) {
    row[plan.equipment.findIndex(({ id }) => id === equipment)]! += count;
  }
  return row;
}

/** The greatest whole number that divides all of `values`; 1 when all are zero. */
function commonDivisor(values: readonly number[]): number {
  let divisor = 0;
  for (let value of values) {
    value = Math.abs(value);
    while (value !== 0) [divisor, value] = [value, divisor % value];
  }
  return divisor === 0 ? 1 : divisor;
}
