import { walkingMs } from "../physics/index.ts";
import type { Gait, SiteInput } from "./ground.ts";
import { distance, distanceToLine, type Point } from "./shapes.ts";

type SitePlace = SiteInput["places"][number];

/** Pieces that a way is looked at in. */
const PIECES = 64;

/**
 * The Tobler time of a rise over a distance grows with the distance below this slope, so along a straight way it is convex
 * there and greatest at an end.
 */
export const STEEPEST_CONVEX = 0.26;

/**
 * The longest walk straight home from anywhere on the straight way from `start` to `end`, whole seconds: an upper bound, reckoned
 * piece by piece: the worse end of each piece where its lines home are gentle, else its farthest and steepest together.
 *
 * Heights between places are taken to run straight from one to the other. Where a way passes close by the lander above or below its
 * footing, the line home would then be steeper than anybody walks: it is taken to be as much longer as lets it rise at the
 * greatest slope allowed. Range: ways with nothing closed between them and the lander. Not covered: what the ground does between
 * places.
 */
export function linesHome(start: SitePlace, end: SitePlace, home: SitePlace, gait: Gait): number {
  const allowed = Math.tan((gait.greatestSlopeDeg * Math.PI) / 180);
  let worstS = 0;
  let near = at(start, end, home, 0);
  for (let k = 1; k <= PIECES; k += 1) {
    const next = at(start, end, home, k / PIECES);
    const leastM = distanceToLine(home, near, next);
    const [nearM, nextM] = [distance(home, near), distance(home, next)];
    const mostM = Math.max(Math.abs(near.riseM), Math.abs(next.riseM));
    if (mostM <= Math.min(STEEPEST_CONVEX, allowed) * leastM) {
      const ends = [seconds(nearM, nearM, near.riseM, gait), seconds(nextM, nextM, next.riseM, gait)];
      worstS = Math.max(worstS, ...ends);
    } else {
      const farM = Math.max(nearM, nextM);
      for (const rise of [Math.max(near.riseM, next.riseM), Math.min(near.riseM, next.riseM)])
        worstS = Math.max(worstS, seconds(leastM, farM, rise, gait));
    }
    near = next;
  }
  return Math.ceil(worstS);
}

/** A share of the way, and how much the lander lies above it. */
function at(
  start: SitePlace,
  end: SitePlace,
  home: SitePlace,
  share: number,
): Point & { readonly riseM: number } {
  return {
    eastM: start.eastM + share * (end.eastM - start.eastM),
    northM: start.northM + share * (end.northM - start.northM),
    riseM: home.upM - (start.upM + share * (end.upM - start.upM)),
  };
}

/** At most so long for `riseM` up (down where negative) over a line of `leastM` to `mostM`. */
function seconds(
  leastM: number,
  mostM: number,
  riseM: number,
  { speedMs, detour, greatestSlopeDeg }: Gait,
): number {
  const allowed = Math.tan((greatestSlopeDeg * Math.PI) / 180);
  const height = Math.abs(riseM);
  const runM = height === 0 ? mostM : Math.max(mostM, height / allowed);
  const slope = height === 0 ? 0 : Math.min(allowed, leastM === 0 ? allowed : height / leastM);
  return Math.hypot(runM * detour, height) / walkingMs(speedMs, Math.sign(riseM) * slope);
}
