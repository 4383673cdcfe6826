/**
 * Length of the shadow of an upright thing on level ground.
 *
 * Formula: height times the cotangent of the sun's elevation. Range: elevations above 0 to 90 degrees.
 * Not covered: the sun's disc, which is taken as a point, and slopes.
 */

/** Shadow length over height at sun elevation `elevationDeg`; infinite when the sun is not up. */
export function shadowPerHeight(elevationDeg: number): number {
  return elevationDeg <= 0 ? Infinity : 1 / Math.tan((elevationDeg * Math.PI) / 180);
}
