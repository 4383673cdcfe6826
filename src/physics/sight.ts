/**
 * How high a point of the ground stands in the sky over a round body without air.
 *
 * Formula, on a sphere of radius R: with the central angle t = d / R the point at height h has the elevation
 * `atan2((R + h) cos t - (R + h0), (R + h) sin t)` seen from height h0. Heights over the same sphere.
 * Range: distances up to a quarter round. Not covered: flattening, and ground in between, which terrain/skyline.ts
 * looks at.
 */

/** Elevation in degrees of a point `heightM` up at `awayM` along the ground, from an eye at `eyeM`. */
export function sightDeg(awayM: number, heightM: number, eyeM: number, radiusM: number): number {
  const turn = awayM / radiusM;
  // (R + h) cos t - (R + h0), without the loss of digits of subtracting two radii.
  const rise = heightM * Math.cos(turn) - eyeM - 2 * radiusM * Math.sin(turn / 2) ** 2;
  return (Math.atan2(rise, (radiusM + heightM) * Math.sin(turn)) * 180) / Math.PI;
}

/** How far below level the horizon of smooth ground lies for an eye at `eyeM`, degrees. */
export function dipDeg(eyeM: number, radiusM: number): number {
  return (Math.acos(radiusM / (radiusM + Math.max(0, eyeM))) * 180) / Math.PI;
}
