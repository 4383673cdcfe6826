/**
 * Walking speed on slopes.
 *
 * Shape: Tobler 1993, NCGIA TR 93-1, `km/h = 6 exp(-3.5 |S + 0.05|)`, S rise over run. Made for Earth: the shape
 * W(S)/W(0) times a level speed of the site's own is a project assumption. Never faster than level here.
 * Range: slopes of -0.5 to 0.5. Not covered: soft ground, loads, loping; a suited descent of about 13 degrees was timed
 * at 5.1 km/h in 1/6 g, faster than this gives.
 */

/** By what power of e walking slows down with the slope, rise over run: what bounds ways from below rests on it too. */
export const SLOWING = 3.5;

/** Tobler's walking speed on Earth in km/h at slope `rise over run`. */
export function toblerKmH(slope: number): number {
  return 6 * Math.exp(-SLOWING * Math.abs(slope + 0.05));
}

const LEVEL_KM_H = toblerKmH(0);

/** Walking speed in m/s at `slope` (rise over run) of somebody who walks `levelMs` on the level. */
export function walkingMs(levelMs: number, slope: number): number {
  // Down to a slope of -0.1 the shape is at least that of the level.
  if (slope <= 0 && slope >= -0.1) return levelMs;
  return levelMs * Math.min(1, toblerKmH(slope) / LEVEL_KM_H);
}
