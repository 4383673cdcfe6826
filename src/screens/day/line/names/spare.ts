import type { ReachTrack } from "../../../../answers/index.ts";
import { type Course, valueNear } from "../../../../editor/index.ts";

/** The longest walk home that is allowed less the one that is needed, wherever either changes. Seconds over time. */
export function spareCourse(track: ReachTrack): Course {
  const times = [...track.points, ...track.allowed].map((point): number => point.atS);
  const sorted = [...new Set(times)].toSorted((a, b) => a - b);
  const allowed = { points: track.allowed };
  return {
    points: sorted.map((atS) => ({ atS, value: valueNear(allowed, atS, 0) - valueNear(track, atS, 0) })),
  };
}

/** The least of a course and the middle of the longest stretch on which it is that; null of an empty one. */
export function leastOf(course: Course): { readonly atS: number; readonly value: number } | null {
  const { points } = course;
  if (points.length === 0) return null;
  const value = Math.min(...points.map((point) => point.value));
  let best = { startS: 0, endS: -1 };
  let startS: number | null = null;
  for (const point of points) {
    if (point.value > value + SAME_S) {
      startS = null;
      continue;
    }
    startS ??= point.atS;
    if (point.atS - startS > best.endS - best.startS) best = { startS, endS: point.atS };
  }
  return { atS: (best.startS + best.endS) / 2, value };
}

/** Differences of less are none that anybody sees, seconds. */
const SAME_S = 1;
