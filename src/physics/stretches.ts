import { type Interval, instant } from "../kernel/index.ts";
import { moonSun, type Observer } from "./sky.ts";

/**
 * The stretches of a stay in which the sun stands inside a range of elevations.
 *
 * Method: a stretch is halved until it is surely inside, surely outside, or one second long. Sure means: even at
 * the fastest the elevation can change, it cannot reach a limit before it is seen again, so a short dip between
 * two looks is never missed. A second counts when the sun is inside at both of its ends.
 * Units: degrees and seconds of mission elapsed time. Range: as sky.ts. Not covered: what sky.ts does not cover.
 */

/** Sun elevations that are allowed, degrees, both limits inside. */
export interface ElevationRange {
  readonly leastDeg: number;
  readonly greatestDeg: number;
}

/**
 * The Moon turns 0.5491 degrees an hour against the stars and the sun moves along with it, so the sun never
 * crosses its sky faster than that; elevation changes by at most the cosine of the latitude of it, and the drift of the
 * subsolar latitude and the librations add less than 0.004 degrees an hour.
 */
const TURN_DEG_S = 0.56 / 3600;
const DRIFT_DEG_S = 0.004 / 3600;

/**
 * The stretches of `within` in which the sun's elevation at `observer` on the Moon stays inside `range`: ascending,
 * disjoint, whole seconds from touchdown, rounded inward: the elevation is inside at every whole second from start
 * to end, the end included.
 * `touchdownMs` is UTC milliseconds since 1970. Empty when there is none.
 */
export function sunStretches(
  touchdownMs: number,
  observer: Observer,
  range: ElevationRange,
  within: Interval,
): Interval[] {
  const found: Interval[] = [];
  if (within.startS >= within.endS) return found;
  const fastest = TURN_DEG_S * Math.cos((observer.latDeg * Math.PI) / 180) + DRIFT_DEG_S;
  const elevation = (metS: number): number => moonSun(touchdownMs + metS * 1000, observer).elevationDeg;
  const middle = (range.leastDeg + range.greatestDeg) / 2;
  const half = (range.greatestDeg - range.leastDeg) / 2;
  /** Degrees outside the range, negative inside. */
  const outside = (metS: number): number => Math.abs(elevation(metS) - middle) - half;

  let open = false;
  const add = (startS: number, endS: number): void => {
    const last = found.at(-1);
    if (open && last) found[found.length - 1] = { startS: last.startS, endS: instant(endS) };
    else found.push({ startS: instant(startS), endS: instant(endS) });
    open = true;
  };
  const search = (startS: number, atStart: number, endS: number, atEnd: number): void => {
    const lengthS = endS - startS;
    const swing = fastest * lengthS;
    if ((atStart + atEnd + swing) / 2 <= 0) return add(startS, endS);
    if ((atStart + atEnd - swing) / 2 > 0 || lengthS === 1) {
      if (lengthS === 1 && atStart <= 0 && atEnd <= 0) return add(startS, endS);
      open = false;
      return;
    }
    const midS = Math.floor((startS + endS) / 2);
    const atMid = outside(midS);
    search(startS, atStart, midS, atMid);
    search(midS, atMid, endS, atEnd);
  };
  search(within.startS, outside(within.startS), within.endS, outside(within.endS));
  return found;
}
