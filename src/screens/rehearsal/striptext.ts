/** What is written into a bar of the strips, and where it begins, px. */
export interface StripText {
  readonly text: string;
  readonly x: number;
}

/** From the side of a bar or from the line of the clock to the first letter, px. */
const PAD_PX = 5;
/** About what a letter of the narrow face takes, px. */
const LETTER_PX = 6.6;

/**
 * The first of these that has room whole in a bar, beside the line of the clock where that crosses the bar; null where none has: a
 * stump of a name says less than the number. `nowPx` is the line's place, on the scale of `x`.
 */
export function stripText(
  texts: readonly string[],
  x: number,
  widthPx: number,
  nowPx: number,
): StripText | null {
  const isCrossed = nowPx > x && nowPx < x + widthPx;
  const rooms = isCrossed
    ? [
        { from: x, to: nowPx },
        { from: nowPx, to: x + widthPx },
      ]
    : [{ from: x, to: x + widthPx }];
  for (const text of texts) {
    const room = rooms.find(({ from, to }) => text.length * LETTER_PX <= to - from - 2 * PAD_PX + 1);
    if (room) return { text, x: room.from + PAD_PX };
  }
  return null;
}
