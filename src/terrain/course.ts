import type { Point } from "./shapes.ts";
import type { GroundTrail } from "./trail.ts";
import { stops, type Ways } from "./ways.ts";

/** Where somebody on a way is when: corners with whole seconds since the start, ascending without repeats. */
export interface Course {
  readonly points: readonly Point[];
  readonly atS: readonly number[];
}

const known = new WeakMap<GroundTrail, Map<number, Course>>();
const knownRound = new WeakMap<Ways, Map<string, Course>>();

/**
 * The course of somebody who takes `seconds` for the way in entry `cell` of `ways` between two of `places`, at the pace that the
 * ground allows; null where the way is one straight line, a leg that the planner gave, or none. A way through other places is
 * walked with equal parts of the time that it is planned with. Corners that fall on the same second as one before are left out.
 */
export function courseOf(ways: Ways, places: readonly Point[], cell: number, seconds: number): Course | null {
  if (ways.via[cell]! >= 0) return roundCourse(ways, places, cell, seconds);
  const trail = ways.trails?.[cell];
  if (!trail || trail.points.length <= 2) return null;
  let bySeconds = known.get(trail);
  if (!bySeconds) known.set(trail, (bySeconds = new Map<number, Course>()));
  let course = bySeconds.get(seconds);
  if (!course) bySeconds.set(seconds, (course = timed(trail.points, sharesOf(trail), seconds)));
  return course;
}

function roundCourse(ways: Ways, places: readonly Point[], cell: number, seconds: number): Course {
  let byKey = knownRound.get(ways);
  if (!byKey) knownRound.set(ways, (byKey = new Map<string, Course>()));
  const key = `${cell} ${seconds}`;
  let course = byKey.get(key);
  if (!course) {
    const path = stops(ways, Math.floor(cell / ways.size), cell % ways.size);
    const wholeS = Math.max(1, ways.durationS[cell]!);
    const points: Point[] = [places[path[0]!]!];
    const shares: number[] = [0];
    let goneS = 0;
    for (let k = 1; k < path.length; k += 1) {
      const hop = path[k - 1]! * ways.size + path[k]!;
      const hopS = ways.durationS[hop]!;
      const trail = ways.trails?.[hop];
      if (trail)
        sharesOf(trail).forEach((share, i) => {
          if (i === 0 || i === trail.points.length - 1) return;
          points.push(trail.points[i]!);
          shares.push((goneS + share * hopS) / wholeS);
        });
      goneS += hopS;
      points.push(places[path[k]!]!);
      shares.push(goneS / wholeS);
    }
    byKey.set(key, (course = timed(points, shares, seconds)));
  }
  return course;
}

function sharesOf({ goneM, levelM }: GroundTrail): number[] {
  return goneM.map((one) => one / levelM);
}

function timed(points: readonly Point[], shares: readonly number[], seconds: number): Course {
  const kept: Point[] = [points[0]!];
  const atS: number[] = [0];
  for (let k = 1; k < points.length - 1; k += 1) {
    const at = Math.round(shares[k]! * seconds);
    if (at <= atS.at(-1)! || at >= seconds) continue;
    kept.push(points[k]!);
    atS.push(at);
  }
  return { points: [...kept, points.at(-1)!], atS: [...atS, seconds] };
}
