/**
 * Extra metabolic power of walking on a slope.
 *
 * Form after Santee et al. 2001: climbing `3.5 m g v sin a`; descending `2.4 m g v sin|a| 0.3^(|a| deg / 7.65)`.
 * Value from memory; applied to other gravity as a project assumption. Range: slopes up to 20 degrees.
 * Not covered: footing, rests on steep ground, gains downhill: a descent never costs less than the level.
 */

/** Extra power in W for mass `massKg` (body, suit, load) at `speedMs` on a slope of `angleRad`, up positive. */
export function slopeW(massKg: number, gravityMs2: number, speedMs: number, angleRad: number): number {
  const lift = massKg * gravityMs2 * speedMs * Math.sin(Math.abs(angleRad));
  if (angleRad >= 0) return 3.5 * lift;
  const degrees = (Math.abs(angleRad) * 180) / Math.PI;
  return 2.4 * lift * 0.3 ** (degrees / 7.65);
}
