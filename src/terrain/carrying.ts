import { slopeW } from "../physics/index.ts";
import type { Ways } from "./ways.ts";

/** What a task carries out, and to where. */
export interface CarryTask {
  readonly place?: string | undefined;
  readonly massOutKg: number;
  readonly crew: { readonly count: number };
  readonly duration: { readonly likelyS: number };
}

/**
 * Metabolic rate in W that what `task` carries out adds to it for each of its crew (S6): the work of the slopes on the way from the
 * lander to its place with each one's share of the mass, spread over the task. 0 without mass, way or time.
 */
export function carryingW(ways: Ways, task: CarryTask, gravityMs2: number, speedMs: number): number {
  const { place, massOutKg, crew, duration } = task;
  const to = place === undefined ? undefined : ways.index.get(place);
  if (to === undefined || massOutKg === 0 || crew.count === 0 || duration.likelyS <= 0) return 0;
  const cell = ways.lander * ways.size + to;
  const wayS = Math.max(0, ways.durationS[cell]!);
  return (
    (slopeW(massOutKg / crew.count, gravityMs2, speedMs, ways.slopeRad[cell]!) * wayS) / duration.likelyS
  );
}
