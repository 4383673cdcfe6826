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
 * windows, and relay passes when it needs one. Tasks that go along with it are no neighbours.
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
  const add = (startS: number, why: string): void => void points.push({ startS, why });

  for (const band of bands) {
    if (request.crew.count > 0 && !band.crew.includes(lane)) continue;
    for (const fit of band.fixed) {
      add(fit.startS, "earliest that fits here");
      if (fit.endS - 1 > fit.startS) add(fit.endS - 1, "latest that fits here");
    }
  }
  for (const placement of start.placements) {
    if (placement.task === task || along.includes(placement.task)) continue;
    if (!placement.crew.includes(lane)) continue;
    const other = tasks.get(placement.task);
    if (!other) continue;
    add(placement.startS + other.duration.likelyS, `after ${other.name}`);
    add(placement.startS - lengthS, `before ${other.name}`);
  }
  for (const window of request.windows) {
    add(window.startS, "window opens");
    add(window.endS - lengthS, "window closes");
  }
  if (request.relay) {
    for (const pass of plan.stay.relayPasses) {
      add(pass.startS, `${pass.name} begins`);
      add(pass.endS - lengthS, `${pass.name} ends`);
    }
  }
  return points;
}

/** Egress times at which a whole EVA stands at one of its bounds. `span` is its egress to ingress now. */
export function evaPoints(
  eva: { readonly earliestEgressS: number; readonly latestIngressS: number },
  span: { readonly startS: number; readonly endS: number },
): readonly SnapPoint[] {
  return [
    { startS: eva.earliestEgressS, why: "earliest egress" },
    { startS: eva.latestIngressS - (span.endS - span.startS), why: "latest ingress" },
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

/** The grid of round times at a zoom of `pxPerS`: a minute where a minute can be seen, else five, else fifteen. */
export function roundGridS(pxPerS: number): number {
  if (pxPerS * 60 >= 1.5) return 60;
  return pxPerS * 300 >= 1.5 ? 300 : 900;
}
