/**
 * Distance to the horizon of a smooth sphere without air.
 *
 * Formula: `sqrt(2 R h + h^2)`, along the sight line, m. Range: any height. Not covered: hills and craters.
 */

/** Distance in m to the horizon from `heightM` above a sphere of `radiusM`. */
export function horizonM(radiusM: number, heightM: number): number {
  return Math.sqrt(2 * radiusM * heightM + heightM ** 2);
}
