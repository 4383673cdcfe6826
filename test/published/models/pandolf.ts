/**
 * Metabolic rate of walking with a load on Earth.
 *
 * Formula: Pandolf, Givoni & Goldman 1977, J Appl Physiol 43:577-581:
 * `M = 1.5 W + 2.0 (W+L)(L/W)^2 + eta (W+L)(1.5 V^2 + 0.35 V G)`. Units: W, kg, m/s, G in signed percent.
 * Downhill: less the correction of Santee et al. 2001/2003, as quoted,
 * `CF = eta [G(W+L)V/3.5 - (W+L)(G+6)^2/W + 25 - V^2]` for G < 0. It jumps at 0 and explodes on steep grades, so here
 * the grade is held at -12, the correction grows in from 0 to -2 percent, and the result is never below rest at
 * 1.2 W/kg (project assumptions).
 * Range: level and uphill walking to 25 percent, 0.2 to 2.4 m/s; downhill to -12 percent; for plausibility and for
 * training on Earth. Not covered: the Moon, where it is 2.8 times too high and the product uses measured rates.
 */

/** A walker with a load on a grade. */
export interface LoadedWalk {
  readonly bodyKg: number;
  readonly loadKg: number;
  readonly speedMs: number;
  /** Signed, percent: rise over run times 100. */
  readonly gradePercent: number;
  /** Terrain factor: 1.0 treadmill, 1.5 heavy brush, 1.8 loose sand. */
  readonly terrain: number;
}

const STEEPEST_DESCENT = -12;
const GROWS_IN_TO = -2;
const RESTING_W_KG = 1.2;

/** Metabolic rate in W by the formula of 1977 as it stands, which fails downhill. */
export function pandolfW({ bodyKg, loadKg, speedMs, gradePercent, terrain }: LoadedWalk): number {
  const allKg = bodyKg + loadKg;
  return (
    1.5 * bodyKg +
    2 * allKg * (loadKg / bodyKg) ** 2 +
    terrain * allKg * (1.5 * speedMs ** 2 + 0.35 * speedMs * gradePercent)
  );
}

/** What is taken off for walking downhill, W, by the formula of 2001 as it stands; 0 on the level and uphill. */
export function santeeCorrectionW({ bodyKg, loadKg, speedMs, gradePercent, terrain }: LoadedWalk): number {
  if (gradePercent >= 0) return 0;
  const allKg = bodyKg + loadKg;
  return (
    terrain *
    ((gradePercent * allKg * speedMs) / 3.5 - (allKg * (gradePercent + 6) ** 2) / bodyKg + 25 - speedMs ** 2)
  );
}

/** Metabolic rate in W, corrected downhill, without jumps, and never below rest. */
export function loadedWalkW(walk: LoadedWalk): number {
  const held = { ...walk, gradePercent: Math.max(walk.gradePercent, STEEPEST_DESCENT) };
  const grown = Math.min(1, held.gradePercent / GROWS_IN_TO);
  const correctionW = grown > 0 ? grown * santeeCorrectionW(held) : 0;
  return Math.max(RESTING_W_KG * walk.bodyKg, pandolfW(held) - correctionW);
}
