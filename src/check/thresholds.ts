/**
 * Where "holds by little" begins. Time margins use the plan's `rules.tightS` and reserves its `rules.reserve.tight`;
 * what has no threshold of its own in the plan uses the share below. Project default, no source.
 */
const CLOSE_PERCENT = 5;

/** True when `used` is within 5 % of the most allowed (and not over it: that is a breach). */
export function closeBelow(used: number, most: number): boolean {
  return used > 0 && used * 100 > most * (100 - CLOSE_PERCENT);
}

/** True when `have` is within 5 % above the least allowed. */
export function closeAbove(have: number, least: number): boolean {
  return least > 0 && have * 100 < least * (100 + CLOSE_PERCENT);
}

/** Straight distances are compared with this tolerance, m: positions inside a walk are floating point. */
export const DISTANCE_TOLERANCE_M = 1e-6;
