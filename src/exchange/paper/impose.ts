import { CUFF } from "./cuff.ts";
import { type LinesMark, moved, type Page, type Paper } from "./page.ts";

/** Sheets for office printers, portrait. */
export type SheetSize = "a4" | "letter";

export const SHEETS: Readonly<Record<SheetSize, { readonly widthMm: number; readonly heightMm: number }>> = {
  a4: { widthMm: 210, heightMm: 297 },
  letter: { widthMm: 215.9, heightMm: 279.4 },
};

const ACROSS = 2;
const DOWN = 2;
/** Cut marks keep off the page's edge and off the printer's unprintable margin. */
const MARK = { from: 1.5, to: 5.5, widthMm: 0.15 };

/**
 * Cuff pages four to a sheet in reading order, edge to edge in the middle of the sheet, with cut marks outside: two
 * cuts across and two down the outside, one each through the middle. Every booklet begins on a sheet of its own.
 */
export function impose(paper: Paper, size: SheetSize): Paper {
  const groups: Page[][] = [];
  for (const page of paper.pages) {
    const open = groups.at(-1);
    if (open && open.length < ACROSS * DOWN && open[0]!.part === page.part) open.push(page);
    else groups.push([page]);
  }
  return { ...paper, pages: groups.map((group) => sheet(group, size)) };
}

function sheet(group: readonly Page[], size: SheetSize): Page {
  const { widthMm, heightMm } = SHEETS[size];
  const left = (widthMm - ACROSS * CUFF.widthMm) / 2;
  const top = (heightMm - DOWN * CUFF.heightMm) / 2;
  return {
    widthMm,
    heightMm,
    name: group.map((page) => page.name).join("; "),
    part: group[0]!.part,
    marks: [
      ...group.flatMap((page, i) => {
        const x = left + (i % ACROSS) * CUFF.widthMm;
        const y = top + Math.floor(i / ACROSS) * CUFF.heightMm;
        return page.marks.map((mark) => moved(mark, x, y));
      }),
      cutMarks(left, top),
    ],
  };
}

function cutMarks(left: number, top: number): LinesMark {
  const right = left + ACROSS * CUFF.widthMm;
  const bottom = top + DOWN * CUFF.heightMm;
  const segments: [number, number, number, number][] = [];
  for (let column = 0; column <= ACROSS; column += 1) {
    const x = left + column * CUFF.widthMm;
    segments.push([x, top - MARK.to, x, top - MARK.from], [x, bottom + MARK.from, x, bottom + MARK.to]);
  }
  for (let row = 0; row <= DOWN; row += 1) {
    const y = top + row * CUFF.heightMm;
    segments.push([left - MARK.to, y, left - MARK.from, y], [right + MARK.from, y, right + MARK.to, y]);
  }
  return { kind: "lines", segments, widthMm: MARK.widthMm, ink: 0 };
}
