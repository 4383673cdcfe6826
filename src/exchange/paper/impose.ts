import { CUFF, LEFT, RIGHT } from "./cuff.ts";
import { extentOf, type LinesMark, type Mark, moved, type Page, type Paper, text } from "./page.ts";

/** Sheets for office printers, portrait. */
export type SheetSize = "a4" | "letter";

export const SHEETS: Readonly<Record<SheetSize, { readonly widthMm: number; readonly heightMm: number }>> = {
  a4: { widthMm: 210, heightMm: 297 },
  letter: { widthMm: 215.9, heightMm: 279.4 },
};

/** How cuff pages go on sheets. */
export interface Imposing {
  readonly sheet: SheetSize;
  /** Both sides are printed, turned over the long edge. */
  readonly duplex: boolean;
  /** stack: cut into four piles that are laid on each other. reading: each sheet by itself, pages in order on it. */
  readonly order: "stack" | "reading";
  /** Crosses where the rings go. */
  readonly rings: boolean;
}

/** Which page stands where on one side of a sheet: by place, row by row as it is seen; null where none does. */
export interface Side {
  readonly sheet: number;
  readonly back: boolean;
  readonly pages: readonly (number | null)[];
}

const ACROSS = 2;
const DOWN = 2;
const PLACES = ACROSS * DOWN;
/** Cut marks keep off the page's edge and off the printer's unprintable margin. */
const MARK = { from: 1.5, to: 5.5, widthMm: 0.15 };
/** Ring holes: so far from the edge and from each other, mm. The project's own; a ring binder of another kind needs its own. */
const RING = { fromEdgeMm: 4, apartMm: 70, armMm: 1.2 };

/** The sides of all sheets of a booklet of so many pages, in the order in which they are printed. */
export function sidesOf(count: number, { duplex, order }: Pick<Imposing, "duplex" | "order">): Side[] {
  const faces = duplex ? 2 : 1;
  const leaves = Math.ceil(count / faces);
  const sheets = Math.ceil(leaves / PLACES);
  return Array.from({ length: sheets * faces }, (_, i): Side => {
    const sheet = Math.floor(i / faces);
    const back = i % faces === 1;
    const pages = Array.from({ length: PLACES }, (_, place) => {
      // A sheet that is turned over its long edge has what was at the left at the right.
      const front = back ? place - (place % ACROSS) + (ACROSS - 1 - (place % ACROSS)) : place;
      const leaf = order === "stack" ? front * sheets + sheet : sheet * PLACES + front;
      const page = leaf * faces + (back ? 1 : 0);
      return page < count ? page : null;
    });
    return { sheet, back, pages };
  });
}

/**
 * Cuff pages four to a sheet, edge to edge in the middle of it, with cut marks outside: two cuts across and two down the
 * outside, one each through the middle. Every booklet begins on a sheet of its own.
 */
export function impose(paper: Paper, imposing: Imposing): Paper {
  const parts = [...new Set(paper.pages.map(({ part }) => part))];
  return {
    ...paper,
    pages: parts.flatMap((part) => {
      const pages = paper.pages.filter((page) => page.part === part);
      const sides = sidesOf(pages.length, imposing);
      return sides.map((side) => sheetOf(pages, side, sides, imposing));
    }),
  };
}

function sheetOf(pages: readonly Page[], side: Side, sides: readonly Side[], imposing: Imposing): Page {
  const { widthMm, heightMm } = SHEETS[imposing.sheet];
  const left = (widthMm - ACROSS * CUFF.widthMm) / 2;
  const top = (heightMm - DOWN * CUFF.heightMm) / 2;
  const placed = side.pages.flatMap((index, place) => {
    const page = index === null ? undefined : pages[index];
    const x = left + (place % ACROSS) * CUFF.widthMm;
    const y = top + Math.floor(place / ACROSS) * CUFF.heightMm;
    return page ? [{ page, x, y }] : [];
  });
  const part = pages[0]?.part ?? "";
  return {
    widthMm,
    heightMm,
    name: placed.map(({ page }) => page.name).join("; "),
    part,
    marks: [
      ...placed.flatMap(({ page, x, y }) =>
        (side.back ? page.marks.map(turned) : page.marks).map((mark) => moved(mark, x, y)),
      ),
      ...(imposing.rings ? placed.map(({ x, y }) => rings(x, y, side.back)) : []),
      ...text(left + 2, heightMm - 4.2, sideWords(whose(pages), side, sides, imposing), {
        sizePt: 6.5,
        bold: false,
      }),
      cutMarks(left, top),
    ],
  };
}

/** A mark on a back page: the ring is at its right there, so content makes room for it and what is at the outer edge changes sides. */
function turned(mark: Mark): Mark {
  const { left, right } = extentOf(mark);
  if (left >= RIGHT) return moved(mark, CUFF.widthMm - right - left, 0);
  return moved(mark, CUFF.widthMm - RIGHT - LEFT, 0);
}

/** Whose booklet it is, by what its pages' names begin with: ids are not for paper. */
function whose(pages: readonly Page[]): string {
  const [first = "", ...others] = pages.map(({ name }) => name);
  const isShared = (end: number): boolean => others.every((name) => name.startsWith(first.slice(0, end)));
  const ends = [...first.matchAll(/: /g)].map(({ index }) => index).filter((end) => isShared(end + 2));
  return first.slice(0, ends.at(-1) ?? first.length);
}

/** Outside the cuts: which sheet it is, and how its pieces are put together. */
function sideWords(
  booklet: string,
  { sheet, back }: Side,
  sides: readonly Side[],
  imposing: Imposing,
): string {
  const sheets = (sides.at(-1)?.sheet ?? 0) + 1;
  const face = imposing.duplex ? (back ? ", back" : ", front") : "";
  const order =
    imposing.order === "stack" && sheets > 1
      ? "; cut the stack, lay the piles on each other, row by row"
      : "";
  return `${booklet}: sheet ${sheet + 1} of ${sheets}${face}${order}`;
}

function rings(x: number, y: number, back: boolean): LinesMark {
  const centre = back ? x + CUFF.widthMm - RING.fromEdgeMm : x + RING.fromEdgeMm;
  const middle = y + CUFF.heightMm / 2;
  const arm = RING.armMm;
  return {
    kind: "lines",
    segments: [middle - RING.apartMm / 2, middle + RING.apartMm / 2].flatMap((at) => [
      [centre - arm, at, centre + arm, at] as const,
      [centre, at - arm, centre, at + arm] as const,
    ]),
    widthMm: MARK.widthMm,
    ink: 0,
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
