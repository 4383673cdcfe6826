/** Straight lines cut at the edges of a frame. */

export interface Frame {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export type Segment = readonly [x1: number, y1: number, x2: number, y2: number];

/** The part of a line inside a frame, or null (Liang & Barsky 1984, ACM Trans Graphics 3:1-22). */
export function clipped([x1, y1, x2, y2]: Segment, { left, top, right, bottom }: Frame): Segment | null {
  const [dx, dy] = [x2 - x1, y2 - y1];
  let [from, to] = [0, 1];
  for (const [step, room] of [
    [-dx, x1 - left],
    [dx, right - x1],
    [-dy, y1 - top],
    [dy, bottom - y1],
  ] as const) {
    if (step === 0 && room < 0) return null;
    if (step < 0) from = Math.max(from, room / step);
    if (step > 0) to = Math.min(to, room / step);
  }
  return from > to ? null : [x1 + from * dx, y1 + from * dy, x1 + to * dx, y1 + to * dy];
}

/** A line of corners as its segments. */
export function segmentsOf(corners: readonly (readonly [number, number])[]): Segment[] {
  return corners.slice(1).map(([x, y], i) => {
    const [fromX, fromY] = corners[i] ?? [x, y];
    return [fromX, fromY, x, y];
  });
}

/** Segments as dashes of `onMm` with `offMm` between, running on round corners. */
export function dashed(segments: readonly Segment[], onMm: number, offMm: number): Segment[] {
  if (offMm === 0) return [...segments];
  const dashes: Segment[] = [];
  let along = 0;
  for (const [x1, y1, x2, y2] of segments) {
    const long = Math.hypot(x2 - x1, y2 - y1);
    const at = (mm: number): readonly [number, number] => [
      x1 + ((x2 - x1) * mm) / long,
      y1 + ((y2 - y1) * mm) / long,
    ];
    for (let mm = 0; mm < long;) {
      const inside = along % (onMm + offMm);
      const isOn = inside < onMm;
      const next = Math.min(long, mm + (isOn ? onMm : onMm + offMm) - inside);
      if (isOn) dashes.push([...at(mm), ...at(next)]);
      // A hair on, so that a rest of nothing does not keep the pen where it is.
      const step = Math.max(next - mm, 1e-6);
      along += step;
      mm += step;
    }
  }
  return dashes;
}
