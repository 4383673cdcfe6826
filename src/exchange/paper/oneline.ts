import { type Caution, classOf, type Step } from "../../plan/index.ts";
import { CLASS_WORDS } from "../../words/index.ts";
import { leastBlankMm } from "./forms.ts";
import { printable } from "./glyphs.ts";
import { textWidth } from "./type.ts";

/** How much of one line what is written for the crew takes of a cuff page at the size that it is read at. */

/** The size that steps are set in, points. */
export const STEP_PT = 14;
/** A cuff page between its margins, mm. */
const WIDE_MM = 86;
/** What a step's box and number take; the words IF and THEN in cells of their own. */
const BOX_MM = 11.8;
const CELL_WORD_MM = 15.2;
/** Frame, hatching and gaps of each class, both sides. */
const FRAME_MM = { warning: 8.5, caution: 5.7, note: 2.9 } as const;

export interface LineUse {
  /** What the text takes on one line, mm. */
  readonly takesMm: number;
  /** What a line has, mm. */
  readonly roomMm: number;
}

/** A caution behind its word; a warning is set bold. */
export function cautionUse(caution: Caution): LineUse {
  const kind = classOf(caution);
  const word = textWidth(CLASS_WORDS[kind], { sizePt: STEP_PT - 0.5, bold: true, tight: true }) + 1.4;
  const takesMm = widthOf(caution.text, kind === "warning");
  return { takesMm, roomMm: WIDE_MM - FRAME_MM[kind] - word };
}

/** A step behind its box and number, before its blank; of IF and THEN the one with less to spare, each in a cell of its own. */
export function stepUse({ when, text, blank }: Pick<Step, "when" | "text" | "blank">): LineUse {
  const room = blank ? WIDE_MM - leastBlankMm(blank) : WIDE_MM;
  if (when === undefined) return { takesMm: widthOf(text, false), roomMm: room - BOX_MM };
  const cells = [
    { takesMm: widthOf(when, false), roomMm: WIDE_MM - CELL_WORD_MM },
    { takesMm: widthOf(text, false), roomMm: room - CELL_WORD_MM },
  ] as const;
  return spareOf(cells[0]) < spareOf(cells[1]) ? cells[0] : cells[1];
}

function spareOf({ takesMm, roomMm }: LineUse): number {
  return roomMm - takesMm;
}

function widthOf(text: string, bold: boolean): number {
  return textWidth(printable(text), { sizePt: STEP_PT, bold });
}

/** What each line of a task's cautions, or of steps with what guards them, takes, in the order in which they are written. */
export function lineUses(kind: "cautions" | "steps", list: readonly (Caution | Step)[]): LineUse[] {
  return kind === "cautions"
    ? list.map(cautionUse)
    : list.flatMap((one) => ("cautions" in one ? [...one.cautions.map(cautionUse), stepUse(one)] : []));
}
