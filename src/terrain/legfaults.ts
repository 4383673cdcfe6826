import { FASTEST_MS } from "../physics/index.ts";
import type { Gait, SiteInput } from "./ground.ts";
import { lineBetween, lineM } from "./legs.ts";
import { stops, type Ways } from "./ways.ts";

/** Given legs that nobody can walk. What they say is used for planned ways all the same; the judge tells of it. */

/** A given leg with numbers that nobody can walk. */
export interface LegFault {
  /** Number of the leg in the ground's list. */
  readonly leg: number;
  /** The straight line between its places, m, where the leg is shorter than it; else null. */
  readonly lineM: number | null;
  /** Its speed, m/s, where that is above the fastest suited walk; Infinity where it takes no time. Else null. */
  readonly speedMs: number | null;
  /** The straight line home from its farther end, m, where its longest way home is given shorter; else null. */
  readonly homeM: number | null;
}

/** Lengths are given in whole metres as often as not: half of one is no fault, m. */
const ROUNDING_M = 0.5;

/**
 * The legs of `ground` that beat physics: shorter than the straight line between their places, faster than anybody was timed in
 * a suit (`physics/suitedspeed`), or with a longest way home that is shorter than the straight line from the farther end.
 */
export function legFaults(ground: SiteInput, gait: Gait): LegFault[] {
  const index = new Map(ground.places.map((place, i) => [place.id, i]));
  const lander = ground.places.findIndex((place) => place.kind === "lander");
  return ground.legs.flatMap((leg, k): LegFault[] => {
    const from = index.get(leg.from);
    const to = index.get(leg.to);
    if (from === undefined || to === undefined || from === to) return [];
    const straight = lineM(lineBetween(ground, gait, from, to));
    const walked = Math.max(leg.distanceM, straight);
    const fast = walked - ROUNDING_M > FASTEST_MS * leg.durationS;
    const peakM = leg.walkbackPeakM;
    const homeM =
      peakM === undefined || lander < 0
        ? 0
        : Math.max(
            lineM(lineBetween(ground, gait, from, lander)),
            lineM(lineBetween(ground, gait, to, lander)),
          );
    const fault = {
      leg: k,
      lineM: leg.distanceM < straight - ROUNDING_M ? straight : null,
      speedMs: fast ? walked / leg.durationS : null,
      homeM: peakM !== undefined && peakM < homeM - ROUNDING_M ? homeM : null,
    };
    return fault.lineM === null && fault.speedMs === null && fault.homeM === null ? [] : [fault];
  });
}

/** By entry of `ways`: 1 where the way goes by one of the `faults`. Null where there is none. */
export function waysByFaults(ways: Ways, faults: readonly LegFault[]): Uint8Array | null {
  if (faults.length === 0) return null;
  const bad = new Set(faults.map((one) => one.leg));
  return Uint8Array.from(ways.durationS, (seconds, at) => {
    if (seconds < 0) return 0;
    const path = stops(ways, Math.floor(at / ways.size), at % ways.size);
    return path.some((to, k) => k > 0 && bad.has(ways.legAt[path[k - 1]! * ways.size + to]!)) ? 1 : 0;
  });
}
