import { slopeW } from "./slope.ts";

/**
 * Metabolic rate of walking a leg: the measured level rate times the walker's factor, plus the work of the slope.
 * Raising the carried load had a small and inconsistent effect on the level (NASA CR-1402), so load counts in the
 * slope term only.
 * Range: suited walking under lunar gravity at about the speed the level rate was measured for. Not covered: how the
 * level rate grows with speed, soft ground, other gravities, for which the level rate is an input.
 */

/** Metabolic rate in W of walking at `speedMs` on a slope of `angleRad` with `massKg` in all (body, suit, load). */
export function walkingW(
  levelW: number,
  factor: number,
  massKg: number,
  gravityMs2: number,
  speedMs: number,
  angleRad: number,
): number {
  return levelW * factor + slopeW(massKg, gravityMs2, speedMs, angleRad);
}
