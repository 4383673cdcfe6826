import type { FitBand, Verdict } from "../../answers/index.ts";
import {
  type Edge,
  evaPoints,
  type Grip,
  type Held,
  lengthPoints,
  type Manner,
  movedTogether,
  REMOTE,
  roundGridS,
  slid,
  slidBy,
  type Snapped,
  snapped,
  snapPoints,
  stretched,
  type Stuck,
  type Target,
  type WalkS,
  withLength,
} from "../../editor/index.ts";
import { instant } from "../../kernel/index.ts";
import type { Plan, Schedule } from "../../plan/index.ts";
import { type Desk, stepName } from "../../session/index.ts";
import { SNAP_PX } from "./line/sizes.ts";

/** What a gesture has hold of: which tasks and how, or one end of a task. */
export interface Grasp {
  readonly held: Held;
  readonly edge: Edge | null;
  /** What the step will be called. */
  readonly name: string;
}

/** What the hand takes by this grip: an EVA, an end, the whole selection when the task is in it, or the task alone. */
export function graspOf(plan: Plan, selection: readonly string[], grip: Grip): Grasp {
  const placed = new Set(plan.schedule.placements.map((one) => one.task));
  const anchor = grip.task;
  const edge = grip.edge ?? null;
  const fromLane = grip.lane;
  const eva = grip.eva ?? null;
  if (eva !== null) {
    const tasks = plan.schedule.placements.filter((one) => one.eva === eva).map((one) => one.task);
    const name = plan.evas.find((one) => one.id === eva)?.name ?? eva;
    return { held: { anchor, tasks, fromLane, eva }, edge: null, name: `Move ${name}` };
  }
  if (edge !== null) {
    const held: Held = { anchor, tasks: [anchor], fromLane, eva };
    return { held, edge, name: stepName("Duration of", plan, [anchor]) };
  }
  const together = placed.has(anchor) && selection.includes(anchor);
  const tasks = together ? selection.filter((task) => placed.has(task)) : [anchor];
  const verb = placed.has(anchor) ? "Move" : "Place";
  return { held: { anchor, tasks, fromLane, eva }, edge: null, name: stepName(verb, plan, tasks) };
}

/** Those of the tasks whose start the planner has pinned. */
export function pinnedAmong(plan: Plan, tasks: readonly string[]): readonly string[] {
  const held = new Set(tasks);
  return plan.tasks
    .filter((task) => held.has(task.id) && task.pin?.startS !== undefined)
    .map((task) => task.id);
}

/** Where the anchor (or the end in hand) is drawn to, near `startS` on `lane`; with `free` only to whole seconds. */
export function snapFor(
  plan: Plan,
  start: Schedule,
  verdict: Verdict,
  grasp: Grasp,
  target: { readonly lane: string; readonly startS: number },
  bands: readonly FitBand[],
  pxPerS: number,
  free: boolean,
): Snapped {
  const { held, edge } = grasp;
  const spot = start.placements.find((one) => one.task === held.anchor);
  const radiusS = SNAP_PX / pxPerS;
  const gridS = free ? 1 : roundGridS(pxPerS, plan.rules.startGridS);
  const eva = plan.evas.find((one) => one.id === held.eva);
  const outing = verdict.outings.find((one) => one.eva === held.eva);
  if (eva && outing && spot) {
    // All of its tasks move as the anchor does, which stands on the grid.
    const points = free ? [] : evaPoints(eva, outing.span, spot.startS, plan.rules.startGridS);
    return snapped(target.startS, points, radiusS, gridS);
  }
  const points = (): Parameters<typeof snapped>[1] => {
    if (free) return [];
    if (edge !== null && spot)
      return lengthPoints(plan, start, held.anchor, target.lane, edge, spanOf(plan, spot));
    return snapPoints(plan, start, held.anchor, target.lane, bands, held.tasks);
  };
  return snapped(target.startS, points(), radiusS, gridS);
}

/** What became of the others: who was pushed, by how much, seconds; and who should have been and cannot. */
export interface Others {
  readonly slid: ReadonlyMap<string, number>;
  readonly stuck: readonly Stuck[];
}

/** Shows on the desk what the grasp makes of the day with the anchor at `target`; the answer is what became of the others. */
export function offer(
  desk: Desk,
  grasp: Grasp,
  target: Target,
  manner: Manner,
  walkS: (plan: Plan) => WalkS,
): Others {
  const { plan } = desk.state.getState();
  const { held, edge } = grasp;
  let stuck: readonly Stuck[] = [];
  const push = (of: Plan, moved: Schedule): Schedule => {
    if (manner !== "slide" || target.at !== "line") return moved;
    const pushed = slid(of, moved, held.tasks, walkS(of));
    stuck = pushed.stuck;
    return pushed.schedule;
  };
  if (edge !== null && target.at === "line") {
    desk.previewPlan((start) => {
      const made = withEdge(start, held.anchor, edge, target.startS);
      return made === start ? start : { ...made, schedule: push(made, made.schedule) };
    });
  } else {
    desk.preview((start) => push(plan, movedTogether(plan, start, held, target)));
  }
  const { preview } = desk.state.getState();
  return { slid: preview ? slidBy(preview.start, preview.schedule, held.tasks) : new Map(), stuck };
}

/** The plan with one end of a placed task at `atS`; the same plan when that is where it is. */
function withEdge(plan: Plan, id: string, edge: Edge, atS: number): Plan {
  const spot = plan.schedule.placements.find((one) => one.task === id);
  if (!spot) return plan;
  const next = stretched(spanOf(plan, spot), edge, atS);
  const tasks = plan.tasks.map((task) => (task.id === id ? withLength(task, next.lengthS) : task));
  if (next.startS === spot.startS && tasks.every((task, i) => task === plan.tasks[i])) return plan;
  const placements = plan.schedule.placements.map((one) =>
    one === spot ? { ...one, startS: instant(next.startS) } : one,
  );
  return { ...plan, tasks, schedule: { placements } };
}

function spanOf(
  plan: Plan,
  spot: { readonly task: string; readonly startS: number },
): { readonly startS: number; readonly endS: number } {
  const lengthS = plan.tasks.find((one) => one.id === spot.task)?.duration.likelyS ?? 0;
  return { startS: spot.startS, endS: spot.startS + lengthS };
}

/** The lane a target means: the remote one for work nobody goes out for, never that one for others. */
export function laneFor(plan: Plan, grasp: Grasp, lane: string): string {
  const { held, edge } = grasp;
  const remote = plan.tasks.find((one) => one.id === held.anchor)?.crew.count === 0;
  if (remote) return REMOTE;
  if (edge !== null || held.eva !== null) return held.fromLane ?? lane;
  return lane === REMOTE ? (held.fromLane ?? plan.crew[0]?.id ?? REMOTE) : lane;
}
