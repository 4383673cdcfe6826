import { runningW } from "./running.ts";
import { slopeW } from "./slope.ts";

/**
 * Metabolic rate of walking a leg: the planner's level rate at the speed that it belongs to, what a greater speed asks
 * beyond that, and the work of the slope.
 *
 * Growth with speed, a project assumption: the speed term of Pandolf, Givoni & Goldman 1977, J Appl Physiol 43:577-581, with its
 * terms scaled by gravity, for loose sand (1.8): `1.5 * 1.8 * sqrt(g / 9.80665) * m (v^2 - v0^2)`, m body and suit.
 * Below v0 the rate stays: what is measured slowly was measured with pauses. Never less than 2 J for each kg of body and
 * suit and metre (Pavei, Biancardi & Minetti 2015, running.ts), whatever rate is given. Both are multiplied by the walker's factor
 * where it is above 1; a factor below 1 lowers only the given rate, as no measurement says that it lowers the others.
 * Raising the carried load had a small and inconsistent effect on the level (NASA CR-1402), so what is carried by hand counts by
 * slopes only.
 *
 * Check of the defaults: 75 kg in 82 kg at 0.9 m/s, 1.62 m/s2: 282.6 W by metres, 258.8 to 282.0 W by the scaled formula, 295.5 W
 * measured on foot. Range: suited walking at 0.3 to 1.94 m/s (7.0 km/h) under lunar gravity. Not covered: faster gaits, which the
 * judge refuses; soft ground; the suit's own stiffness, but for what the measured rate holds of it; other gravities,
 * for which the cost of a metre is taken to be the same.
 */

/** What a plan says of walking on the level. */
export interface LevelRate {
  /** Metabolic rate, W, of somebody with factor 1, at `rateAtMs`. */
  readonly metabolicW: number;
  /** The speed that the rate belongs to, m/s. */
  readonly rateAtMs: number;
}

/** Who walks. */
export interface OnFoot {
  /** Multiplies metabolic rates. */
  readonly factor: number;
  /** Body and suit, kg. */
  readonly massKg: number;
}

const EARTH_MS2 = 9.80665;
const LOOSE_SAND = 1.8;

/** What walking at `speedMs` asks beyond walking at `rateAtMs`, W; 0 for slower walking. */
export function speedGrowthW(massKg: number, gravityMs2: number, rateAtMs: number, speedMs: number): number {
  const squares = Math.max(0, speedMs ** 2 - rateAtMs ** 2);
  return 1.5 * LOOSE_SAND * Math.sqrt(gravityMs2 / EARTH_MS2) * massKg * squares;
}

/** Metabolic rate in W of `who` walking on the level at `speedMs`. */
export function levelW(rate: LevelRate, who: OnFoot, gravityMs2: number, speedMs: number): number {
  const hard = Math.max(1, who.factor);
  const grown =
    rate.metabolicW * who.factor + hard * speedGrowthW(who.massKg, gravityMs2, rate.rateAtMs, speedMs);
  return Math.max(grown, hard * runningW(who.massKg, speedMs));
}

/** Metabolic rate in W of `who` walking at `speedMs` (on the level) on a slope of `angleRad`, up positive. */
export function walkingW(
  rate: LevelRate,
  who: OnFoot,
  gravityMs2: number,
  speedMs: number,
  angleRad: number,
): number {
  return levelW(rate, who, gravityMs2, speedMs) + slopeW(who.massKg, gravityMs2, speedMs, angleRad);
}

/**
 * Metabolic rate in W of `who` walking back at `speedMs` on a slope of `angleRad`: `givenW` times the factor, and never less than
 * what walking at that speed asks.
 */
export function walkbackW(
  givenW: number,
  rate: LevelRate,
  who: OnFoot,
  gravityMs2: number,
  speedMs: number,
  angleRad: number,
): number {
  const flatW = Math.max(givenW * who.factor, levelW(rate, who, gravityMs2, speedMs));
  return flatW + slopeW(who.massKg, gravityMs2, speedMs, angleRad);
}
