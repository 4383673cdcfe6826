import { STANDING } from "../cuff.ts";
import { SHEETS, type SheetSize } from "../impose.ts";
import { line, type Mark, type Page, text } from "../page.ts";
import type { SheetStamp } from "../sheets/frame.ts";
import { clip } from "../type.ts";

/** The landscape sheet of the day timeline and its fixed parts. */

export const LANDSCAPE_LEFT = 9;
/** Where time begins, right of the lane names. */
export const LANE_LEFT = 27;

export interface SheetBox {
  readonly widthMm: number;
  readonly heightMm: number;
  /** Right edge of all content. */
  readonly right: number;
  readonly room: { readonly top: number; readonly bottom: number };
}

const KEY =
  "Heavy frame: more than one crew member. Bold name: must-do. Hatched band: walking, with its time. " +
  "Thin line: waiting. Brackets: a rest that the work limit needs. A number alone: its name below. Times: MET.";

/** The paper of `size` laid on its side. */
export function sheetBox(size: SheetSize): SheetBox {
  const { widthMm: heightMm, heightMm: widthMm } = SHEETS[size];
  return { widthMm, heightMm, right: widthMm - LANDSCAPE_LEFT, room: { top: 20.5, bottom: heightMm - 14 } };
}

/** Bodies of sheets as pages with title, count and the standing line. */
export function framed(
  box: SheetBox,
  title: string,
  under: string,
  { revision, printed }: SheetStamp,
  bodies: readonly (readonly Mark[])[],
): Page[] {
  const { widthMm, heightMm, right } = box;
  const wide = right - LANDSCAPE_LEFT;
  const small = { sizePt: 7, bold: false };
  return bodies.map((marks, i) => {
    const count = `sheet ${i + 1} of ${bodies.length}`;
    return {
      widthMm,
      heightMm,
      name: `Day timeline, ${count}`,
      part: "day",
      marks: [
        ...text(LANDSCAPE_LEFT, 13, clip(title, wide, { sizePt: 16, bold: true }), {
          sizePt: 16,
          bold: true,
        }),
        ...text(LANDSCAPE_LEFT, 17.4, clip(under, wide, { sizePt: 9, bold: false }), {
          sizePt: 9,
          bold: false,
        }),
        line(LANDSCAPE_LEFT, 19, right, 19, 0.7),
        ...marks,
        line(LANDSCAPE_LEFT, heightMm - 13, right, heightMm - 13, 0.2),
        ...text(LANDSCAPE_LEFT, heightMm - 9.8, KEY, small),
        ...text(LANDSCAPE_LEFT, heightMm - 6.6, STANDING, { ...small, bold: true }),
        ...text(right, heightMm - 6.6, `${revision} · ${printed} · ${count}`, { ...small, align: "right" }),
      ],
    };
  });
}
