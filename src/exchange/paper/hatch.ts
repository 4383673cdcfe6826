import type { LinesMark } from "./page.ts";

/** Which way the strokes of a hatch run. */
export type Slant = "up" | "down";

/**
 * A rectangle hatched with 45-degree strokes `gapMm` apart (measured across the page), cut at its edges. Computed
 * here so that no renderer has to clip.
 */
export function hatch(
  x: number,
  y: number,
  w: number,
  h: number,
  gapMm: number,
  widthMm: number,
  slant: Slant = "up",
): LinesMark {
  const segments: (readonly [number, number, number, number])[] = [];
  // A stroke starts at `from` on the lower edge (extended to the left) and climbs to the right.
  for (let from = -h + gapMm / 2; from < w; from += gapMm) {
    const start = Math.max(0, -from);
    const end = Math.min(h, w - from);
    if (end <= start) continue;
    const rise = (along: number): number => (slant === "up" ? y + h - along : y + along);
    segments.push([x + from + start, rise(start), x + from + end, rise(end)]);
  }
  if (segments.length === 0) segments.push([x, y, x + Math.min(w, h), y + Math.min(w, h)]);
  return { kind: "lines", segments, widthMm, ink: 0 };
}
