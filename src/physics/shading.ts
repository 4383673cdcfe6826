import type { SkyDirection } from "./sky.ts";

/**
 * How brightly the sun lights a slope: hillshade from the true direction of the sun.
 *
 * Formula: the cosine of the angle between the sun and the normal of the ground, `n . s`; 0 when the ground faces away.
 * Ground of slope rise per metre (east e, north n) has the normal (-e, -n, 1). Range: any slope and elevation.
 * Not covered: shadow cast by other ground, light scattered from it, the backscatter of real regolith.
 */

/**
 * Cosine of incidence, 0 to 1, on ground that rises `east` and `north` per metre; NaN where the ground is not known.
 */
export function incidence(east: number, north: number, sun: SkyDirection): number {
  const elevation = (sun.elevationDeg * Math.PI) / 180;
  const azimuth = (sun.azimuthDeg * Math.PI) / 180;
  const level = Math.cos(elevation);
  const along = Math.sin(elevation) - east * level * Math.sin(azimuth) - north * level * Math.cos(azimuth);
  return Math.max(0, along / Math.hypot(east, north, 1));
}
