import type { Plan } from "../plan/index.ts";
import { clicked } from "./lasso.ts";
import { REMOTE } from "./lanes.ts";
import type { Edge } from "./stretch.ts";
import type { Movers } from "./together.ts";

/** What was under the pointer when it went down, or under the keyboard's place. */
export interface Grip {
  readonly task: string;
  /** The lane it was taken by; null from the bench. */
  readonly lane: string | null;
  /** Seconds from the task's start to the pointer; from the end in hand when it is an edge. */
  readonly offsetS: number;
  /** The end it was taken by, to make it longer or shorter. */
  readonly edge?: Edge;
  /** The EVA, when all of it was taken by its bar. */
  readonly eva?: string;
  /** Pressed with the key that adds to the selection. */
  readonly more?: boolean;
}

/** What a gesture has hold of: which tasks and how, or one end of a task. */
export interface Taken extends Movers {
  readonly edge: Edge | null;
}

/** What is taken by this grip: an EVA, an end, the whole selection when the task is in it, or the task alone. */
export function takenBy(plan: Plan, selection: readonly string[], grip: Grip): Taken {
  const { task: anchor, lane: fromLane, edge = null, eva = null } = grip;
  if (eva !== null) {
    const tasks = plan.schedule.placements.filter((one) => one.eva === eva).map((one) => one.task);
    return { anchor, tasks, fromLane, eva, edge: null };
  }
  if (edge !== null) return { anchor, tasks: [anchor], fromLane, eva, edge };
  const placed = new Set(plan.schedule.placements.map((one) => one.task));
  const chosen = grip.more && !selection.includes(anchor) ? [...selection, anchor] : selection;
  const together = placed.has(anchor) && chosen.includes(anchor);
  const tasks = together ? chosen.filter((task) => placed.has(task)) : [anchor];
  return { anchor, tasks, fromLane, eva, edge };
}

/** The selection after a click: the task, with the key for it one more or less, or all of an EVA. */
export function selectedBy(plan: Plan, selection: readonly string[], grip: Grip): readonly string[] {
  return grip.eva === undefined
    ? clicked(selection, grip.task, grip.more ?? false)
    : takenBy(plan, selection, grip).tasks;
}

/** Tasks that forbid the gesture because their start is pinned. Another length keeps the start, unless the start is in hand. */
export function pinnedIn(plan: Plan, taken: Taken): readonly string[] {
  if (taken.edge === "end") return [];
  const tasks = new Set(taken.tasks);
  return plan.tasks.filter(({ id, pin }) => tasks.has(id) && pin?.startS !== undefined).map(({ id }) => id);
}

/** The lane that `lane` means for what is taken: the remote one for work nobody goes out for, never that one for others. */
export function laneFor(plan: Plan, taken: Taken, lane: string): string {
  const remote = plan.tasks.find((one) => one.id === taken.anchor)?.crew.count === 0;
  if (remote) return REMOTE;
  if (taken.edge !== null || taken.eva !== null) return taken.fromLane ?? lane;
  return lane === REMOTE ? (taken.fromLane ?? plan.crew[0]?.id ?? REMOTE) : lane;
}
