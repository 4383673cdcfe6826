import { slopeW } from "../physics/index.ts";
import { insideOf, type WalkedTask } from "./inside.ts";
import type { Ways } from "./ways.ts";

/** What a task carries out, and to where. */
export interface CarryTask extends WalkedTask {
  readonly massOutKg: number;
  readonly crew: { readonly count: number };
  readonly duration: { readonly likelyS: number };
}

/**
 * Metabolic rate in W that slopes add to `task` for each of its crew (S6), spread over the task: the work of each one's share of what it
 * carries out on the way from the lander to its place; and that of body and suit (`walkerKg`) with that share on the way
 * between its ends. 0 without slope, way or time.
 */
export function carryingW(
  ways: Ways,
  task: CarryTask,
  walkerKg: number,
  gravityMs2: number,
  speedMs: number,
): number {
  const { massOutKg, crew, duration } = task;
  if (crew.count === 0 || duration.likelyS <= 0) return 0;
  const shareKg = massOutKg / crew.count;
  const { from, cell } = insideOf(ways, task, speedMs);
  if (shareKg === 0 && cell < 0) return 0;
  const outJ = slopeJ(ways, ways.lander * ways.size + from, shareKg, gravityMs2);
  return (outJ + (cell < 0 ? 0 : slopeJ(ways, cell, walkerKg + shareKg, gravityMs2))) / duration.likelyS;
}

/** Work of carrying `massKg` over the slopes of a way, J. */
function slopeJ(
  { paceMs, slopeRad, durationS }: Ways,
  at: number,
  massKg: number,
  gravityMs2: number,
): number {
  return slopeW(massKg, gravityMs2, paceMs[at]!, slopeRad[at]!) * Math.max(0, durationS[at]!);
}
