import type { Instant } from "./time.ts";

/** Half-open stretch of time `[startS, endS)`: the end instant is not inside. Empty when start >= end. */
export interface Interval {
  readonly startS: Instant;
  readonly endS: Instant;
}

/** True when the whole of `inner` lies inside `outer`. */
export function contains(outer: Interval, inner: Interval): boolean {
  return inner.startS >= outer.startS && inner.endS <= outer.endS;
}

/** True when the two share at least one instant; touching ends do not overlap. */
export function overlaps(a: Interval, b: Interval): boolean {
  return a.startS < b.endS && b.startS < a.endS;
}

/** The common stretches of two ascending, disjoint lists; ascending and disjoint, empty ones left out. */
export function intersect(a: readonly Interval[], b: readonly Interval[]): Interval[] {
  const common: Interval[] = [];
  let i = 0;
  let j = 0;
  while (i < a.length && j < b.length) {
    const left = a[i]!;
    const right = b[j]!;
    const startS = left.startS > right.startS ? left.startS : right.startS;
    const endS = left.endS < right.endS ? left.endS : right.endS;
    if (startS < endS) common.push({ startS, endS });
    if (left.endS < right.endS) i += 1;
    else j += 1;
  }
  return common;
}

/** Any list of stretches as an ascending, disjoint one; touching stretches are joined, empty ones dropped. */
export function normalise(list: readonly Interval[]): Interval[] {
  const sorted = list.filter((one) => one.startS < one.endS).sort((a, b) => a.startS - b.startS);
  const merged: Interval[] = [];
  for (const next of sorted) {
    const last = merged.at(-1);
    if (last && next.startS <= last.endS) {
      merged[merged.length - 1] = {
        startS: last.startS,
        endS: next.endS > last.endS ? next.endS : last.endS,
      };
    } else {
      merged.push({ startS: next.startS, endS: next.endS });
    }
  }
  return merged;
}
