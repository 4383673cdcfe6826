import type { LoadedWalk } from "./pandolf.ts";

/**
 * Metabolic rate of walking with a load under less gravity: the Earth formula with its terms scaled.
 *
 * Formula, a project assumption for plausibility only, with r = g / 9.80665:
 * `M = W(1.5*290/440 + 1.5*150/440 r) + 2 r (W+L)(L/W)^2 + eta (W+L)(1.5 V^2 sqrt r + 0.35 V G r)`.
 * Built on Pandolf, Givoni & Goldman 1977, J Appl Physiol 43:577-581. On the Moon it lands either side of the
 * measured 272 W. Range: level and uphill, 0.1 to 1 g. Not covered: descents, the stiffness of a suit; the product
 * uses only its growth with speed (physics/walk.ts).
 */
const EARTH_MS2 = 9.80665;

/** Metabolic rate in W of `walk` under `gravityMs2`. */
export function lightWalkW(walk: LoadedWalk, gravityMs2: number): number {
  const { bodyKg, loadKg, speedMs, gradePercent, terrain } = walk;
  const r = gravityMs2 / EARTH_MS2;
  const allKg = bodyKg + loadKg;
  return (
    bodyKg * ((1.5 * 290) / 440 + ((1.5 * 150) / 440) * r) +
    2 * r * allKg * (loadKg / bodyKg) ** 2 +
    terrain * allKg * (1.5 * speedMs ** 2 * Math.sqrt(r) + 0.35 * speedMs * gradePercent * r)
  );
}
