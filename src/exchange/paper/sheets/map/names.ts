import { line, type Mark, rect, text } from "../../page.ts";
import { CAP, MM_PER_PT, textWidth } from "../../type.ts";
import type { Frame } from "./clip.ts";

/** Names of places on a map, none over another: beside the place, or farther off on a thin line. */

export interface Named {
  readonly x: number;
  readonly y: number;
  readonly words: string;
  readonly bold: boolean;
}

const SIZE_PT = 7.5;
const RADII_MM = [1.9, 3.5, 5.5, 8, 11, 15, 20, 26];
/** Least room between two names, so that each is read by itself, mm. */
const APART_MM = 0.9;
/** To the right first, then round. */
const ANGLES = [0, 180, 45, 315, 135, 225, 90, 270, 20, 340, 160, 200].map(
  (degrees) => (degrees * Math.PI) / 180,
);

/** The names that find room in the frame, off what is `kept` free, as marks, and those that do not. */
export function nameMarks(
  places: readonly Named[],
  frame: Frame,
  kept: readonly Frame[],
): { marks: Mark[]; left: Named[] } {
  const points = places.map(({ x, y }) => ({ left: x - 1.2, right: x + 1.2, top: y - 1.2, bottom: y + 1.2 }));
  const taken: Frame[] = [...kept, ...points];
  const marks: Mark[] = [];
  const left: Named[] = [];
  for (const place of places) {
    const face = { sizePt: SIZE_PT, bold: place.bold };
    const point = pointFor(place, textWidth(place.words, face), frame, taken);
    if (!point) {
      left.push(place);
      continue;
    }
    taken.push(widened(point.box, APART_MM));
    if (point.far) marks.push(line(place.x, place.y, point.atX, point.atY, 0.12));
    const { box } = point;
    // White behind the name, so that no line goes through it.
    marks.push(rect(box.left, box.top + 0.2, box.right - box.left, box.bottom - box.top - 0.4, 0, 1));
    marks.push(...text(box.left + 0.3, box.bottom - 0.5, place.words, face));
  }
  return { marks, left };
}

interface PaperPoint {
  readonly box: Frame;
  readonly far: boolean;
  readonly atX: number;
  readonly atY: number;
}

function pointFor({ x, y }: Named, wide: number, frame: Frame, taken: readonly Frame[]): PaperPoint | null {
  const high = CAP * SIZE_PT * MM_PER_PT + 0.8;
  for (const radius of RADII_MM) {
    for (const angle of ANGLES) {
      const atX = x + radius * Math.cos(angle);
      const atY = y - radius * Math.sin(angle);
      const left = Math.cos(angle) > 0.3 ? atX : Math.cos(angle) < -0.3 ? atX - wide : atX - wide / 2;
      const box = { left: left - 0.3, right: left + wide + 0.3, top: atY - high / 2, bottom: atY + high / 2 };
      const inside =
        box.left >= frame.left &&
        box.right <= frame.right &&
        box.top >= frame.top &&
        box.bottom <= frame.bottom;
      if (inside && !taken.some((one) => overlap(one, box))) return { box, far: radius > 3, atX, atY };
    }
  }
  return null;
}

function widened({ left, right, top, bottom }: Frame, byMm: number): Frame {
  return { left: left - byMm, right: right + byMm, top: top - byMm, bottom: bottom + byMm };
}

function overlap(a: Frame, b: Frame): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}
