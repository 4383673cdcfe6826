import type { Plan, Schedule } from "../plan/index.ts";
import { spanOf } from "./proposal.ts";
import {
  evaPoints,
  lengthPoints,
  roundGridS,
  type Snapped,
  snapped,
  snapPoints,
  type StartBand,
} from "./snap.ts";
import type { Taken } from "./taken.ts";

/** What helps to aim: the day at the begin, and how it is looked at. */
export interface AimAids {
  readonly start: Schedule;
  /** Egress to ingress of the EVA in hand; null when none is. */
  readonly span: { readonly startS: number; readonly endS: number } | null;
  readonly bands: readonly StartBand[];
  readonly pxPerS: number;
  /** How near a point draws, pixels. */
  readonly radiusPx: number;
  /** Snapping is held off: whole seconds only. */
  readonly free: boolean;
}

/** Where the anchor of what is taken (or the end in hand) is drawn to, near `startS` on `lane`. */
export function aimed(
  plan: Plan,
  taken: Taken,
  at: { readonly lane: string; readonly startS: number },
  aids: AimAids,
): Snapped {
  const { start, span, bands, pxPerS, radiusPx, free } = aids;
  const radiusS = radiusPx / pxPerS;
  if (free) return snapped(at.startS, [], radiusS, 1);
  const { startGridS } = plan.rules;
  const gridS = roundGridS(pxPerS, startGridS);
  const stood = spanOf(plan, start, taken.anchor);
  const eva = plan.evas.find((one) => one.id === taken.eva);
  const points =
    // All tasks of an EVA move as the anchor does, which stands on the grid.
    eva && span && stood
      ? evaPoints(eva, span, stood.startS, startGridS)
      : taken.edge !== null && stood
        ? lengthPoints(plan, start, taken.anchor, at.lane, taken.edge, stood)
        : snapPoints(plan, start, taken.anchor, at.lane, bands, taken.tasks);
  return snapped(at.startS, points, radiusS, gridS);
}
