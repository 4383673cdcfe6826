import type { Verdict } from "../../../answers/index.ts";
import {
  type Between,
  betweensOf,
  type Block,
  blocksOf,
  type Lane,
  type LaneRelief,
  layLanes,
  reliefTopS,
  REMOTE,
  remoteRowsOf,
  rowSlabOf,
  type Slab,
  slabOf,
  type TimeScale,
} from "../../../editor/index.ts";
import type { Plan, Schedule, Task } from "../../../plan/index.ts";
import { REMOTE_PAD_PX, REMOTE_ROW_PX, skyPx, thickPx } from "./sizes.ts";

/** What stands on the day line, still without a scale: it is the same at every zoom. */
export interface DayLayout {
  readonly plan: Plan;
  readonly schedule: Schedule;
  readonly verdict: Verdict;
  readonly tasks: ReadonlyMap<string, Task>;
  readonly lanes: readonly Lane[];
  readonly relief: LaneRelief;
  readonly blocks: readonly Block[];
  readonly betweens: readonly Between[];
  readonly lanesPx: number;
}

/** Lays the plan out in lanes of `crewPx`. */
export function layoutOf(
  plan: Plan,
  schedule: Schedule,
  verdict: Verdict,
  tasks: ReadonlyMap<string, Task>,
  crewPx: number,
): DayLayout {
  const remote = remoteRowsOf(plan, schedule);
  const hasRemote = plan.tasks.some((task) => task.crew.count === 0);
  const lanes = layLanes(plan, hasRemote ? Math.max(1, remote.rows) : 0, {
    crewPx,
    remoteRowPx: REMOTE_ROW_PX,
    remotePadPx: REMOTE_PAD_PX,
  });
  const last = lanes.at(-1);
  return {
    plan,
    schedule,
    verdict,
    tasks,
    lanes,
    relief: {
      thickPx: thickPx(crewPx),
      skyPx: skyPx(crewPx),
      topS: reliefTopS(plan),
    },
    blocks: blocksOf(plan, schedule, verdict.reach, remote.row),
    betweens: betweensOf(verdict.outings, verdict.reach, verdict.rests),
    lanesPx: last ? last.topPx + last.heightPx : 0,
  };
}

/** Height of all lanes without those of the crew. */
export function remoteLanePx(plan: Plan, schedule: Schedule): number {
  if (!plan.tasks.some((task) => task.crew.count === 0)) return 0;
  return Math.max(1, remoteRowsOf(plan, schedule).rows) * REMOTE_ROW_PX + 2 * REMOTE_PAD_PX;
}

/** Where a block stands on screen; null when its lane is not shown. */
export function slabFor(layout: DayLayout, scale: TimeScale, block: Block): Slab | null {
  const lane = layout.lanes.find((one) => one.key === block.lane);
  if (!lane) return null;
  return block.lane === REMOTE
    ? rowSlabOf(block, lane, REMOTE_ROW_PX, REMOTE_PAD_PX, scale)
    : slabOf(block, lane, layout.relief, scale, isJoint(block, lane));
}

/** True of what both do together who share the lane's line home: one block across it. */
export function isJoint(block: Block, lane: Lane): boolean {
  return lane.mate !== null && block.crew.includes(lane.mate);
}

/** The lanes that share a line home, upper one first; each of the others for itself. */
export function bandsOf(lanes: readonly Lane[]): readonly (readonly Lane[])[] {
  return lanes
    .filter((lane) => lane.sense === "up")
    .map((lane) => lanes.filter((one) => one === lane || one.key === lane.mate));
}

/** The room between line home and far edge over both halves of what two do together; null where the other half is not shown. */
export function acrossOf(
  layout: DayLayout,
  scale: TimeScale,
  block: Block,
): { readonly upper: Slab; readonly lower: Slab } | null {
  const lane = layout.lanes.find((one) => one.key === block.lane);
  if (!lane || lane.sense !== "up" || !isJoint(block, lane)) return null;
  const other = layout.blocks.find((one) => one.task === block.task && one.lane === lane.mate);
  const upper = slabFor(layout, scale, block);
  const lower = other ? slabFor(layout, scale, other) : null;
  return upper && lower ? { upper, lower } : null;
}

/** When an EVA that goes out as it does must be over: by its latest ingress, and when it has lasted as long as it may. */
export function inBy(eva: Plan["evas"][number], span: { readonly startS: number }): number {
  return Math.min(eva.latestIngressS, span.startS + eva.longestS);
}

/** True when any of it lies inside the shown window. */
export function shows(scale: TimeScale, span: { readonly startS: number; readonly endS: number }): boolean {
  return span.endS >= scale.window.startS && span.startS <= scale.window.endS;
}
