import { line, type Mark, tagged } from "./page.ts";

/**
 * A way home without a compass: whoever faces their own shadow has the mark on top before them, and the arrow points home. The eyes are
 * off the sun.
 */

/** Where the sun stands, degrees. */
export interface Sun {
  readonly azimuthDeg: number;
  readonly elevationDeg: number;
}

/** Below the horizon there is no shadow, and near the zenith none that shows a direction. */
const LOWEST_DEG = 0.5;
const HIGHEST_DEG = 75;

/** Clockwise from one's own shadow to a bearing, 0 to 360 degrees; null where there is no shadow to face. */
export function fromShadowDeg(bearingDeg: number, sun: Sun | null): number | null {
  if (sun === null || Number.isNaN(bearingDeg)) return null;
  if (sun.elevationDeg < LOWEST_DEG || sun.elevationDeg > HIGHEST_DEG) return null;
  return (((bearingDeg - sun.azimuthDeg - 180) % 360) + 360) % 360;
}

/** The same as an hour of a clock's face with one's shadow at 12. */
export function clockHour(degrees: number): number {
  return Math.round(degrees / 30) % 12 || 12;
}

const CORNERS = 36;

/** A dial about a centre, with the arrow so many degrees clockwise from the mark on top. */
export function dial(x: number, y: number, radius: number, degrees: number): Mark[] {
  const at = (deg: number, r: number): readonly [number, number] => {
    const rad = (deg * Math.PI) / 180;
    return [x + r * Math.sin(rad), y - r * Math.cos(rad)];
  };
  const stroke = (from: readonly [number, number], to: readonly [number, number], mm: number): Mark =>
    line(from[0], from[1], to[0], to[1], mm);
  const ring = Array.from({ length: CORNERS }, (_, k) => {
    const [x1, y1] = at((k * 360) / CORNERS, radius);
    // A little over, so that no gap shows at a corner.
    const [x2, y2] = at(((k + 1.06) * 360) / CORNERS, radius);
    return [x1, y1, x2, y2] as const;
  });
  const tip = at(degrees, radius - 1.2);
  return tagged(
    [
      { kind: "lines", segments: ring, widthMm: 0.6, ink: 0 },
      stroke(at(0, radius + 0.2), at(0, radius - 1.3), 1.5),
      stroke(at(degrees + 180, radius - 2), tip, 1.3),
      stroke(tip, at(degrees + 38, radius - 3.4), 1.3),
      stroke(tip, at(degrees - 38, radius - 3.4), 1.3),
    ],
    { role: "Figure", says: `Facing your shadow, home is at ${clockHour(degrees)} o'clock.` },
  );
}
