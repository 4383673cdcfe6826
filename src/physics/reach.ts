/**
 * How far from safety somebody may be and still walk back.
 *
 * Rule, as published in prose: be able to walk back at any time on what is left, and independently on emergency
 * oxygen. Form (project's own): speed times the seconds that are left, over the detour factor. Range: a steady pace on
 * the level. Not covered: slopes and closed ground, which terrain and the judge take into account.
 */

/** Straight-line distance in m that is walked back in `seconds` at `speedMs` with ways `detour` times the line. */
export function farthestM(speedMs: number, seconds: number, detour: number): number {
  return (speedMs * seconds) / detour;
}
