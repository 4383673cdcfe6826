import { type Amounts, CONSUMABLES } from "./suit.ts";

/**
 * How far from safety somebody may be and still walk back.
 *
 * Rule, as published in prose: be able to walk back at any time on what is left, and independently on emergency
 * oxygen. Form (project's own): `v * min over consumables((stock - reserve) / rate)` and `v * emergency time`, each over
 * the detour factor. Range: a steady pace on the level.
 * Not covered: slopes and closed ground, which terrain and the judge take into account.
 */

/** Whole seconds for which what is `left` lasts at `rate` a second down to `reserve`, rounded down; 0 when gone. */
export function lastsS(left: Amounts, reserve: Amounts, rate: Amounts): number {
  let least = Infinity;
  for (const one of CONSUMABLES) {
    if (rate[one] <= 0 && left[one] >= reserve[one]) continue;
    const spare = left[one] - reserve[one];
    least = Math.min(least, spare <= 0 ? 0 : Math.floor(spare / rate[one]));
  }
  return least;
}

/** Straight-line distance in m that is walked back in `seconds` at `speedMs` with ways `detour` times the line. */
export function farthestM(speedMs: number, seconds: number, detour: number): number {
  return (speedMs * seconds) / detour;
}
