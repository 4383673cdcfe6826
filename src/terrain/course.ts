import type { Point } from "./shapes.ts";
import type { Trail } from "./trail.ts";
import type { Ways } from "./ways.ts";

/** Where somebody on a way is when: corners with whole seconds since the start, ascending without repeats. */
export interface Course {
  readonly points: readonly Point[];
  readonly atS: readonly number[];
}

const known = new WeakMap<Trail, Map<number, Course>>();

/**
 * The course of somebody who takes `seconds` for the direct way in entry `cell` of `ways`, at the pace that the ground
 * allows; null where the way is a straight line or a leg that the planner gave. Corners that fall on the same second
 * as one before are left out.
 */
export function courseOf(ways: Ways, cell: number, seconds: number): Course | null {
  const trail = ways.trails?.[cell];
  if (!trail || trail.points.length <= 2) return null;
  let bySeconds = known.get(trail);
  if (!bySeconds) known.set(trail, (bySeconds = new Map<number, Course>()));
  let course = bySeconds.get(seconds);
  if (!course) bySeconds.set(seconds, (course = timed(trail, seconds)));
  return course;
}

function timed({ points, goneM, levelM }: Trail, seconds: number): Course {
  const kept: Point[] = [points[0]!];
  const atS: number[] = [0];
  for (let k = 1; k < points.length - 1; k += 1) {
    const at = Math.round((goneM[k]! / levelM) * seconds);
    if (at <= atS.at(-1)! || at >= seconds) continue;
    kept.push(points[k]!);
    atS.push(at);
  }
  return { points: [...kept, points.at(-1)!], atS: [...atS, seconds] };
}
