import type { ReachTrack } from "../answers/index.ts";
import { instant, remembered } from "../kernel/index.ts";
import { type Amounts, type Consumable, CONSUMABLES } from "../physics/index.ts";
import { taskName } from "../words/index.ts";
import { placeName } from "./names.ts";
import type { Prepared } from "./prepared.ts";
import type { Step } from "./steps.ts";
import type { CrewOuting } from "./crewouting.ts";

/** What bounds the walk-back: emergency oxygen or a consumable. */
export interface Allowed {
  readonly seconds: number;
  readonly by: Consumable;
}

/**
 * Longest walk-back on a slope angle, whole seconds, that leaves `kept` (the reserve) of every consumable when `left` is what there
 * is now, and which consumable bounds it. Infinite where the walk-back draws nothing, -1 where what is kept is already gone.
 */
export function carried(
  { walker, suitLoad }: Pick<CrewOuting, "walker" | "suitLoad">,
  left: Amounts,
  slopeRad: number,
  kept: Amounts = walker.reserve,
): Allowed {
  const rates = suitLoad.walkback(slopeRad);
  let least: Allowed = { seconds: Infinity, by: "oxygen" };
  for (const consumable of CONSUMABLES) {
    const above = left[consumable] - kept[consumable];
    const rate = rates[consumable];
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
  /** The slope angle that the walk-back counts with, radians. */
  readonly slopeRad: number;
  readonly left: Amounts;
  readonly place: number;
  readonly peak: boolean;
  /** The task at work; null otherwise. */
  readonly task: string | null;
}

/** Where a moment is, in words. */
export function whereWords(prepared: Prepared, { peak, place, task }: Moment): string {
  if (!peak) return placeName(prepared, place);
  return task === null
    ? `the way to ${placeName(prepared, place)}`
    : `the farthest point of ${taskName(prepared.plan, task)}`;
}

/** Both ends of every stretch, and the worst of a way against what is left at its end; no-way places are left out. */
export function moments(crewOuting: CrewOuting): Moment[] {
  const list: Moment[] = [];
  crewOuting.steps.forEach((step, k) => {
    const before = crewOuting.left[k]!;
    const behind = crewOuting.left[k + 1]!;
    // Written out: a move in the hand is judged every frame, and spreads took a fifth of it.
    const from: Moment = {
      atS: step.drawnFromS,
      homeS: step.homeFromS,
      slopeRad: step.slopeFromRad,
      left: before,
      place: step.from,
      peak: false,
      task: step.stretch.task,
    };
    const to: Moment = {
      atS: step.drawnToS,
      homeS: step.homeToS,
      slopeRad: step.slopeToRad,
      left: behind,
      place: step.to,
      peak: false,
      task: step.stretch.task,
    };
    if (from.homeS >= 0) list.push(from);
    if (hasPeak(step)) list.push({ ...to, homeS: step.peakS, slopeRad: step.slopePeakRad, peak: true });
    if (to.homeS >= 0) list.push(to);
  });
  return list;
}

/** Walk-back needed and allowed over time; a worst point between the ends of a way stands in its middle. */
export const reachTrack = remembered((crewOuting: CrewOuting, prepared: Prepared): ReachTrack => {
  const points: { atS: ReturnType<typeof instant>; value: number }[] = [];
  const allowed: typeof points = [];
  const slopesRad: number[] = [];
  const allow = (left: Amounts, slopeRad: number): number =>
    Math.min(crewOuting.walker.emergencyS, carried(crewOuting, left, slopeRad).seconds);
  const mark: Mark = (atS, homeS, slopeRad) => {
    if (homeS < 0) return;
    points.push({ atS: instant(atS), value: homeS });
    slopesRad.push(slopeRad);
  };
  const first = crewOuting.steps[0];
  if (first) mark(first.drawnFromS, first.homeFromS, first.slopeFromRad);
  allowed.push({
    atS: crewOuting.outing.span.startS,
    value: allow(crewOuting.left[0]!, first?.slopeFromRad ?? 0),
  });
  crewOuting.steps.forEach((step, k) => {
    const middleS = Math.floor((step.drawnFromS + step.drawnToS) / 2);
    if (step.stretch.kind === "traverse" && step.stretch.path.length > 2) markHops(prepared, step, mark);
    else if (hasPeak(step)) mark(middleS, step.peakS, step.slopePeakRad);
    mark(step.drawnToS, step.homeToS, step.slopeToRad);
    allowed.push({ atS: instant(step.drawnToS), value: allow(crewOuting.left[k + 1]!, step.slopeToRad) });
  });
  return { eva: crewOuting.outing.eva, crew: crewOuting.outing.crew, points, slopesRad, allowed };
});

/** Marks a walk-back at a moment, with the slope angle that it counts with. */
type Mark = (atS: number, homeS: number, slopeRad: number) => void;

/** Whether a way is farthest from home between its ends. */
export function hasPeak(step: Step): boolean {
  return step.peakS > Math.max(step.homeFromS, step.homeToS);
}

/** The places gone through on a way of several hops, each when it is reached. */
function markHops(prepared: Prepared, step: Step, mark: Mark): void {
  const { ways, home } = prepared;
  let atS = step.drawnFromS;
  const path = step.stretch.path.map((id) => ways.index.get(id) ?? ways.lander);
  for (let k = 1; k < path.length; k += 1) {
    atS += ways.durationS[path[k - 1]! * ways.size + path[k]!]!;
    const hop = path[k - 1]! * ways.size + path[k]!;
    const hopPeakS = home.peakS[hop]!;
    const endsS = Math.max(home.placeS[path[k - 1]!]!, home.placeS[path[k]!]!);
    const bySoon = Math.min(atS, step.drawnToS);
    if (hopPeakS > endsS) mark(bySoon, hopPeakS, home.peakSlopeRad[hop]!);
    if (k < path.length - 1) mark(bySoon, home.placeS[path[k]!]!, home.placeSlopeRad[path[k]!]!);
  }
}
