/**
 * Headings on the ground, and the angle between two, as of one who walks and the sun.
 *
 * Degrees from north through east, 0 to 360; to the sun 0 walking into it and 180 with it behind. Range: distances small against the body.
 * Not covered: how far the eye is dazzled, which grows towards 0.
 */

/** Heading of a way that goes `eastM` and `northM`; NaN where it goes nowhere. */
export function bearingDeg(eastM: number, northM: number): number {
  if (eastM === 0 && northM === 0) return NaN;
  return ((Math.atan2(eastM, northM) * 180) / Math.PI + 360) % 360;
}

/** Angle between two headings, 0 to 180. */
export function apartDeg(oneDeg: number, otherDeg: number): number {
  const turn = (((oneDeg - otherDeg) % 360) + 360) % 360;
  return Math.min(turn, 360 - turn);
}
