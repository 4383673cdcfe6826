/** A piecewise linear course over time, its points in order of time; two points at one instant are a jump. */
export interface Course {
  readonly points: readonly { readonly atS: number; readonly value: number }[];
}

/** The value at `atS`, after a jump at that instant; null before the first point, after the last, or without points. */
export function valueAt(course: Course, atS: number): number | null {
  const { points } = course;
  const first = points[0];
  const last = points.at(-1);
  if (!first || !last || atS < first.atS || atS > last.atS) return null;
  let low = 0;
  let high = points.length - 1;
  // The last point that is not later than `atS`.
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (points[middle]!.atS <= atS) low = middle;
    else high = middle - 1;
  }
  const from = points[low]!;
  const to = points[low + 1];
  if (!to || from.atS === atS) return from.value;
  return from.value + ((atS - from.atS) / (to.atS - from.atS)) * (to.value - from.value);
}

/** Like `valueAt`, with the ends' values held before and after the course; `fallback` without points. */
export function valueNear(course: Course | undefined, atS: number, fallback: number): number {
  const first = course?.points[0];
  const last = course?.points.at(-1);
  if (!course || !first || !last) return fallback;
  return valueAt(course, Math.min(last.atS, Math.max(first.atS, atS))) ?? fallback;
}
