import { gridFrom, gridTo } from "../kernel/index.ts";
import { type Placement, type Plan, type Schedule, type Task, tasksById } from "../plan/index.ts";

/** A start that a task in hand is drawn to, and why. */
export interface SnapPoint {
  readonly startS: number;
  /** In words for the pointer's label: "after Core tube", "window opens". */
  readonly why: string;
}

/** Where a task in hand was put after snapping. */
export interface Snapped {
  readonly startS: number;
  /** What it snapped to; null for a round time. */
  readonly to: SnapPoint | null;
}

/** What offers starts besides the schedule: bands of starts that fit, from the packer. */
export interface StartBand {
  readonly crew: readonly string[];
  readonly fixed: readonly { readonly startS: number; readonly endS: number }[];
}

/**
 * Starts worth snapping to for `task` on `lane`: the edges of its fit bands, both sides of the lane's neighbours, its
 * windows, and relay passes when it needs one; each moved inwards to the plan's grid, but for a band so narrow that no start on the grid
 * fits. Tasks that go along with it are no neighbours.
 */
export function snapPoints(
  plan: Plan,
  start: Schedule,
  task: string,
  lane: string,
  bands: readonly StartBand[],
  along: readonly string[] = [],
): readonly SnapPoint[] {
  const request = plan.tasks.find((one) => one.id === task);
  if (!request) return [];
  const movers = [task, ...along];
  return [
    ...bandPoints(plan, request, lane, bands),
    ...neighbourPoints(plan, start, request, (one) => one.crew.includes(lane) && !movers.includes(one.task)),
    ...windowPoints(plan, request),
  ];
}

/** The edges of the stretches in which a task fits on a lane. */
function bandPoints(
  { rules }: Plan,
  request: Task,
  lane: string,
  bands: readonly StartBand[],
): readonly SnapPoint[] {
  return bands
    .filter(({ crew }) => request.crew.count === 0 || crew.includes(lane))
    .flatMap(({ fixed }) => fixed)
    .flatMap((fit): readonly SnapPoint[] => {
      const { firstS, lastS } = startsIn(fit, rules.startGridS);
      const first = { startS: firstS, why: "earliest that fits here" };
      return lastS > firstS ? [first, { startS: lastS, why: "latest that fits here" }] : [first];
    });
}

/** A start at which a stretch of time begins, and one with which a task as long as `lengthS` is over at its end, on the grid inwards. */
function within(
  { rules }: Plan,
  lengthS: number,
  from: { readonly startS: number; readonly why: string },
  until: { readonly endS: number; readonly why: string },
): readonly SnapPoint[] {
  return [
    { startS: gridFrom(from.startS, rules.startGridS), why: from.why },
    { startS: gridTo(until.endS - lengthS, rules.startGridS), why: until.why },
  ];
}

/** Right after each neighbour, and right before it. */
function neighbourPoints(
  plan: Plan,
  start: Schedule,
  { duration }: Task,
  isNeighbour: (one: Placement) => boolean,
): readonly SnapPoint[] {
  const tasks = tasksById(plan);
  return start.placements.filter(isNeighbour).flatMap((one) => {
    const other = tasks.get(one.task);
    if (!other) return [];
    const after = { startS: one.startS + other.duration.likelyS, why: `after ${other.name}` };
    return within(plan, duration.likelyS, after, { endS: one.startS, why: `before ${other.name}` });
  });
}

/** Begin and end of a task's windows, and of relay passes when it needs one. */
function windowPoints(plan: Plan, { duration, windows, relay }: Task): readonly SnapPoint[] {
  const spans = [
    ...windows.map(({ startS, endS }) => ({ startS, endS, opens: "window opens", closes: "window closes" })),
    ...(relay ? plan.stay.relayPasses : []).map(({ name, startS, endS }) => ({
      startS,
      endS,
      opens: `${name} begins`,
      closes: `${name} ends`,
    })),
  ];
  return spans.flatMap(({ startS, endS, opens, closes }) =>
    within(plan, duration.likelyS, { startS, why: opens }, { endS, why: closes }),
  );
}

/** The first and the last start on the grid in a half-open stretch of starts; its own ends where there is none. */
export function startsIn(
  fit: { readonly startS: number; readonly endS: number },
  gridS: number,
): { readonly firstS: number; readonly lastS: number } {
  const firstS = gridFrom(fit.startS, gridS);
  const lastS = gridTo(fit.endS - 1, gridS);
  return firstS <= lastS ? { firstS, lastS } : { firstS: fit.startS, lastS: fit.endS - 1 };
}

/**
 * Starts of its task now at `atS` with which a whole EVA stands at one of its bounds, or inside it on the grid. `span` is its egress to
 * ingress now.
 */
export function evaPoints(
  eva: { readonly earliestEgressS: number; readonly latestIngressS: number },
  span: { readonly startS: number; readonly endS: number },
  atS: number,
  gridS: number,
): readonly SnapPoint[] {
  return [
    { startS: gridFrom(atS + eva.earliestEgressS - span.startS, gridS), why: "earliest egress" },
    { startS: gridTo(atS + eva.latestIngressS - span.endS, gridS), why: "latest ingress" },
  ];
}

/**
 * Times worth drawing an end of `task` to: its short and long case, and the neighbours on `lane`. `span` is where it
 * stands.
 */
export function lengthPoints(
  plan: Plan,
  start: Schedule,
  task: string,
  lane: string,
  edge: "start" | "end",
  span: { readonly startS: number; readonly endS: number },
): readonly SnapPoint[] {
  const request = plan.tasks.find((one) => one.id === task);
  if (!request) return [];
  const tasks = tasksById(plan);
  const sign = edge === "end" ? 1 : -1;
  const fixed = edge === "end" ? span.startS : span.endS;
  const points: SnapPoint[] = [];
  const { lowS, highS } = request.duration;
  if (lowS !== undefined) points.push({ startS: fixed + sign * lowS, why: "the short case" });
  if (highS !== undefined) points.push({ startS: fixed + sign * highS, why: "the long case" });
  for (const one of start.placements) {
    const other = tasks.get(one.task);
    if (one.task === task || !other || !one.crew.includes(lane)) continue;
    if (edge === "end") points.push({ startS: one.startS, why: `until ${other.name}` });
    else points.push({ startS: one.startS + other.duration.likelyS, why: `after ${other.name}` });
  }
  return points;
}

/**
 * `startS` drawn to the nearest point within `radiusS`, else to the nearest multiple of `gridS`. A start that fits is
 * preferred to a neighbour's edge at the same distance because it comes first in the list.
 */
export function snapped(
  startS: number,
  points: readonly SnapPoint[],
  radiusS: number,
  gridS: number,
): Snapped {
  let to: SnapPoint | null = null;
  let away = radiusS;
  for (const point of points) {
    const distance = Math.abs(point.startS - startS);
    if (distance < away || (to === null && distance === away)) {
      to = point;
      away = distance;
    }
  }
  if (to) return { startS: to.startS, to };
  return { startS: Math.round(startS / gridS) * gridS, to: null };
}

/** The least number of pixels that a step of round times is wide. */
const STEP_PX = 1.5;

/**
 * The grid of round times at a zoom of `pxPerS`: the plan's own grid, a minute, five or fifteen, the finest that can be seen; only those
 * that are whole multiples of the plan's grid.
 */
export function roundGridS(pxPerS: number, planGridS: number): number {
  const steps = [planGridS, 60, 300, 900].filter((stepS) => stepS >= planGridS && stepS % planGridS === 0);
  return steps.find((stepS) => pxPerS * stepS >= STEP_PX) ?? steps.at(-1)!;
}
