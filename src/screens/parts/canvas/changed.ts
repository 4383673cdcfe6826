import type { Course, TimeScale } from "../../../editor/index.ts";

/** A stretch of time in a picture. */
export interface Stretch {
  readonly startS: number;
  readonly endS: number;
}

/** Where a picture differs from the one before: nowhere, anywhere, or from the least to the greatest of these. */
export type Changed = null | "anywhere" | Stretch;

/** Columns of a canvas, CSS pixels. */
export interface Columns {
  readonly fromPx: number;
  readonly toPx: number;
}

/** The stretch that holds all of these; null of none. */
export function around(spans: readonly Stretch[]): Stretch | null {
  if (spans.length === 0) return null;
  return {
    startS: Math.min(...spans.map((one) => one.startS)),
    endS: Math.max(...spans.map((one) => one.endS)),
  };
}

/** The items of two lists that the other does not have, of both; `same` tells whether two are alike. */
export function differing<Item>(
  a: readonly Item[],
  b: readonly Item[],
  same: (a: Item, b: Item) => boolean,
): readonly Item[] {
  const { head, tailA, tailB } = middles(a, b, same);
  if (head >= tailA && head >= tailB) return [];
  const restA = a.slice(head, tailA);
  const restB = b.slice(head, tailB);
  return [
    ...restA.filter((one) => !restB.some((other) => same(one, other))),
    ...restB.filter((one) => !restA.some((other) => same(one, other))),
  ];
}

type Points = Course["points"];

/** The stretch of time in which two piecewise linear courses differ. */
export function courseChange(a: Points, b: Points): Stretch | null {
  const { head, tailA, tailB } = middles(a, b, samePoint);
  if (head >= tailA && head >= tailB) return null;
  // A line runs from one point to the next, so what differs reaches to the neighbours.
  const from = Math.max(0, head - 1);
  const times = [...a.slice(from, tailA + 1), ...b.slice(from, tailB + 1)].map(({ atS }): number => atS);
  return { startS: Math.min(...times), endS: Math.max(...times) };
}

function samePoint(a: Points[number], b: Points[number]): boolean {
  return a.atS === b.atS && a.value === b.value;
}

/** Where two lists stop being alike from the front, and the ends of what is not alike from the back. */
function middles<Item>(
  a: readonly Item[],
  b: readonly Item[],
  same: (a: Item, b: Item) => boolean,
): { readonly head: number; readonly tailA: number; readonly tailB: number } {
  if (a === b) return { head: a.length, tailA: a.length, tailB: a.length };
  let head = 0;
  let tailA = a.length;
  let tailB = b.length;
  while (head < tailA && head < tailB && same(a[head]!, b[head]!)) head += 1;
  while (tailA > head && tailB > head && same(a[tailA - 1]!, b[tailB - 1]!)) {
    tailA -= 1;
    tailB -= 1;
  }
  return { head, tailA, tailB };
}

/** The columns that show a stretch and `padPx` more on both sides; null when none of them is shown. */
export function columnsOf(stretch: Stretch, scale: TimeScale, padPx: number): Columns | null {
  const fromPx = Math.max(0, Math.floor(scale.x(stretch.startS) - padPx));
  const toPx = Math.min(scale.widthPx, Math.ceil(scale.x(stretch.endS) + padPx));
  return fromPx < toPx ? { fromPx, toPx } : null;
}

/** The same scale with only these columns, and `padPx` on both sides, as its window: what lies elsewhere is not shown. */
export function within(scale: TimeScale, columns: Columns | null, padPx: number): TimeScale {
  if (columns === null) return scale;
  const window = { startS: scale.at(columns.fromPx - padPx), endS: scale.at(columns.toPx + padPx) };
  return { ...scale, window };
}
