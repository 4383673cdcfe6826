/**
 * Sun elevation over a body that is given by numbers: its day length and the sun's declination.
 *
 * Formula: `sin e = sin lat sin dec + cos lat cos dec cos H`, H the hour angle. Steady turning.
 * Range: any latitude; over a few days, while the declination holds. Not covered: the sun's disc, parallax, hills, an
 * uneven orbit. The Moon's own sun is in sky.ts.
 */
const RADIANS = Math.PI / 180;

/** Days of 86 400 s from one new Moon to the next, the length of the Moon's solar day. */
export const MOON_SOLAR_DAYS = 29.530589;

/** Degrees an hour that the sun moves over a body whose solar day lasts `solarDays` days of 86 400 s. */
export function sunDegH(solarDays: number): number {
  return 360 / (solarDays * 24);
}

/** Sun elevation in degrees at latitude `latDeg`, declination `decDeg`, hour angle `hourAngleDeg` (0 at noon). */
export function sunElevationDeg(latDeg: number, decDeg: number, hourAngleDeg: number): number {
  const lat = latDeg * RADIANS;
  const dec = decDeg * RADIANS;
  const sine =
    Math.sin(lat) * Math.sin(dec) + Math.cos(lat) * Math.cos(dec) * Math.cos(hourAngleDeg * RADIANS);
  return Math.asin(Math.min(1, Math.max(-1, sine))) / RADIANS;
}
