import type { Track } from "../../../answers/index.ts";

/** Reading the judge's courses at a moment, never better than they are. */

type Points = Track["points"];

/** The least that a course has at a moment: straight between its points, the lower where it jumps; null outside of it. */
export function leastAt(points: Points, atS: number): number | null {
  const before = points.findLast((point) => point.atS <= atS);
  const behind = points.find((point) => point.atS >= atS);
  if (!before || !behind) return null;
  if (before.atS === behind.atS) {
    const here = points.filter((point) => point.atS === atS).map(({ value }) => value);
    return Math.min(...here);
  }
  const share = (atS - before.atS) / (behind.atS - before.atS);
  return before.value + (behind.value - before.value) * share;
}

/**
 * The most that a course has between two moments: of all points from the last one before to the first one behind, since
 * nothing is known of it between points but that it is not above both; null where it has none.
 */
export function mostOver(points: Points, fromS: number, toS: number): number | null {
  const startS = points.findLast((point) => point.atS <= fromS)?.atS ?? fromS;
  const endS = points.find((point) => point.atS >= toS)?.atS ?? toS;
  const inside = points.filter((point) => startS <= point.atS && point.atS <= endS).map(({ value }) => value);
  return inside.length === 0 ? null : Math.max(...inside);
}

/**
 * The most that a course has from one moment until another, with the moment between two of its points taken as high as the higher.
 * Where it jumps, what it was before the first and what it is from the other on do not count; null where it has no points.
 */
export function mostUntil(points: Points, fromS: number, toS: number): number | null {
  if (toS <= fromS) return mostOver(points, fromS, toS);
  const first = points.findLastIndex((point) => point.atS <= fromS);
  const last = points.findIndex((point) => point.atS >= toS);
  const inside = points.slice(Math.max(0, first), last < 0 ? points.length : last + 1);
  return inside.length === 0 ? null : Math.max(...inside.map(({ value }) => value));
}
