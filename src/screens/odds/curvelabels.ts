/** A point of the curve on the page, px, and what is written beside it. */
export interface LabelledPoint {
  readonly x: number;
  readonly y: number;
  readonly words: string;
}

/** Half a letter's width and a line's height at the size of the picture's words, px. */
const HALF_LETTER_PX = 3.6;
const LINE_PX = 14;
/** From a point to the foot of words above it, and of words below it, px. */
const ABOVE_PX = -12;
const BELOW_PX = 22;

/** How far below each point the foot of its words stands: above it, or under it where the words of one before are in the way there. */
export function labelFeet(points: readonly LabelledPoint[]): readonly number[] {
  const written: { readonly x: number; readonly half: number; readonly foot: number }[] = [];
  return points.map(({ x, y, words }) => {
    const half = words.length * HALF_LETTER_PX;
    const isFree = (foot: number): boolean =>
      written.every((one) => Math.abs(one.x - x) >= one.half + half || Math.abs(one.foot - foot) >= LINE_PX);
    const dy = !isFree(y + ABOVE_PX) && isFree(y + BELOW_PX) ? BELOW_PX : ABOVE_PX;
    written.push({ x, half, foot: y + dy });
    return dy;
  });
}
