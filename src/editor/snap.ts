import { gridFrom, gridTo } from "../kernel/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";

/** A start that a held task is drawn to, and why. */
export interface SnapPoint {
  readonly startS: number;
  /** In words for the pointer's label: "after Core tube", "window opens". */
  readonly why: string;
}

/** Where a held task was put after snapping. */
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
  const lengthS = request.duration.likelyS;
  const tasks = new Map(plan.tasks.map((one) => [one.id, one]));
  const points: SnapPoint[] = [];
  const { startGridS } = plan.rules;
  const from = (startS: number, why: string): void =>
    void points.push({ startS: gridFrom(startS, startGridS), why });
  const until = (startS: number, why: string): void =>
    void points.push({ startS: gridTo(startS, startGridS), why });

  for (const band of bands) {
    if (request.crew.count > 0 && !band.crew.includes(lane)) continue;
    for (const fit of band.fixed) {
      const { firstS, lastS } = startsIn(fit, startGridS);
      points.push({ startS: firstS, why: "earliest that fits here" });
      if (lastS > firstS) points.push({ startS: lastS, why: "latest that fits here" });
    }
  }
  for (const placement of start.placements) {
    if (placement.task === task || along.includes(placement.task)) continue;
    if (!placement.crew.includes(lane)) continue;
    const other = tasks.get(placement.task);
    if (!other) continue;
    from(placement.startS + other.duration.likelyS, `after ${other.name}`);
    until(placement.startS - lengthS, `before ${other.name}`);
  }
  for (const window of request.windows) {
    from(window.startS, "window opens");
    until(window.endS - lengthS, "window closes");
  }
  if (request.relay) {
    for (const pass of plan.stay.relayPasses) {
      from(pass.startS, `${pass.name} begins`);
      until(pass.endS - lengthS, `${pass.name} ends`);
    }
  }
  return points;
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
  const tasks = new Map(plan.tasks.map((one) => [one.id, one]));
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
