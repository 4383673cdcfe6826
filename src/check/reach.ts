import { instant } from "../kernel/index.ts";
import { type Amounts, type Consumable, CONSUMABLES } from "../physics/index.ts";
import type { Prepared } from "./prepared.ts";
import type { Step } from "./steps.ts";
import type { Walk } from "./walks.ts";
import type { ReachTrack } from "./verdict.ts";

/** What bounds the walk-back: emergency oxygen or a consumable. */
export interface Allowed {
  readonly seconds: number;
  readonly by: Consumable;
}

/**
 * Longest walk-back, whole seconds, that leaves `kept` (the reserve) of every consumable when `left` is what there is now, and
 * which consumable bounds it. Infinite where the walk-back draws nothing, -1 where what is kept is already gone.
 */
export function carried(
  { walker, worn }: Pick<Walk, "walker" | "worn">,
  left: Amounts,
  kept: Amounts = walker.reserve,
): Allowed {
  let least: Allowed = { seconds: Infinity, by: "oxygen" };
  for (const consumable of CONSUMABLES) {
    const above = left[consumable] - kept[consumable];
    const rate = worn.walkback[consumable];
    // Whole numbers far below 2^53: the quotient never rounds up across a whole second.
    const seconds = rate > 0 ? Math.floor(above / rate) : above >= 0 ? Infinity : -1;
    if (seconds < least.seconds) least = { seconds, by: consumable };
  }
  return least;
}

/** A moment that the walk-back rules test: the walk-back needed and what is left at that moment. */
export interface Moment {
  readonly atS: number;
  readonly homeS: number;
  readonly left: Amounts;
  readonly place: number;
  readonly peak: boolean;
}

/** Both ends of every stretch, and the worst of a way against what is left at its end; no-way places are left out. */
export function moments(walk: Walk): Moment[] {
  const list: Moment[] = [];
  walk.steps.forEach((step, k) => {
    const before = walk.left[k]!;
    const behind = walk.left[k + 1]!;
    const from = { atS: step.drawnFromS, homeS: step.homeFromS, left: before, place: step.from, peak: false };
    const to = { atS: step.drawnToS, homeS: step.homeToS, left: behind, place: step.to, peak: false };
    if (from.homeS >= 0) list.push(from);
    if (hasPeak(step)) list.push({ ...to, homeS: step.peakS, peak: true });
    if (to.homeS >= 0) list.push(to);
  });
  return list;
}

/** Walk-back needed and allowed over time; a worst point between the ends of a way stands in its middle. */
export function reachTracks(prepared: Prepared, walks: readonly Walk[]): ReachTrack[] {
  return walks.map((walk) => {
    const points: { atS: ReturnType<typeof instant>; value: number }[] = [];
    const allowed: typeof points = [];
    const allow = (left: Amounts): number => Math.min(walk.walker.emergencyS, carried(walk, left).seconds);
    const mark = (atS: number, homeS: number): void => {
      if (homeS >= 0) points.push({ atS: instant(atS), value: homeS });
    };
    const first = walk.steps[0];
    if (first) mark(first.drawnFromS, first.homeFromS);
    allowed.push({ atS: walk.outing.span.startS, value: allow(walk.left[0]!) });
    walk.steps.forEach((step, k) => {
      if (step.stretch.path.length > 2) markHops(prepared, step, mark);
      else if (hasPeak(step)) mark(Math.floor((step.drawnFromS + step.drawnToS) / 2), step.peakS);
      mark(step.drawnToS, step.homeToS);
      allowed.push({ atS: instant(step.drawnToS), value: allow(walk.left[k + 1]!) });
    });
    return { eva: walk.outing.eva, crew: walk.outing.crew, points, allowed };
  });
}

function hasPeak(step: Step): boolean {
  return step.peakS > Math.max(step.homeFromS, step.homeToS);
}

/** The places gone through on a way of several hops, each when it is reached. */
function markHops(prepared: Prepared, step: Step, mark: (atS: number, homeS: number) => void): void {
  const { ways, home } = prepared;
  let atS = step.drawnFromS;
  const path = step.stretch.path.map((id) => ways.index.get(id) ?? ways.lander);
  for (let k = 1; k < path.length; k += 1) {
    atS += ways.durationS[path[k - 1]! * ways.size + path[k]!]!;
    const hopPeakS = home.peakS[path[k - 1]! * ways.size + path[k]!]!;
    const endsS = Math.max(home.placeS[path[k - 1]!]!, home.placeS[path[k]!]!);
    if (hopPeakS > endsS) mark(Math.min(atS, step.drawnToS), hopPeakS);
    if (k < path.length - 1) mark(Math.min(atS, step.drawnToS), home.placeS[path[k]!]!);
  }
}
