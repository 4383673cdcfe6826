import { textWidth, wrap } from "../type.ts";
import type { Cell, Column, Table } from "./body.ts";

/** How wide each column of a table is, and how large its text. */

/** From the roomiest to the closest. The least is for a desk, not for a wrist. */
const SIZES_PT = [9, 8.5, 8, 7.5, 7] as const;
/** Space left and right of a cell's text, mm. */
export const PAD_MM = 0.9;
/** Room for thick bars on the left of a column, mm. */
const BARS_MM = 2;
/** A column that does not grow breaks its text from here on, mm. */
const MOST_MM = 46;
/** So much a share of the growing columns has at least, mm. */
const LEAST_GROWN_MM = 21;

/** So that a text that just fits its column is not broken by the last bit of a sum, mm. */
const HAIR_MM = 0.02;

export interface Fit {
  readonly sizePt: number;
  readonly widths: readonly number[];
}

/** Size of a column's head and of a cell's second line beside that of the text. */
export const headPt = (sizePt: number): number => sizePt - 1.5;

/** Widths in which every word of a table stands whole, in the largest size that allows it; null where none does. */
export function fitTable(table: Table, wideMm: number): Fit | null {
  for (const sizePt of SIZES_PT.filter((one) => one <= (table.mostPt ?? Infinity))) {
    const own = table.columns.map((column, i) => ownWidth(table, column, i, sizePt));
    const shares = table.columns.reduce((sum, { grow = 0 }) => sum + grow, 0);
    const left = wideMm - own.reduce((sum, one) => sum + one, 0);
    if (shares === 0) {
      if (left < 0) continue;
      // What is left over goes to all alike, so that rules reach from edge to edge.
      return { sizePt, widths: own.map((one) => one * (wideMm / (wideMm - left))) };
    }
    const widths = own.map((one, i) => one + (left * (table.columns[i]?.grow ?? 0)) / shares);
    const roomy = table.columns.every(
      ({ grow = 0 }, i) =>
        grow === 0 ||
        (widths[i] ?? 0) >= Math.max(grow * LEAST_GROWN_MM, longestWord(table, i, sizePt) + 2 * PAD_MM),
    );
    if (left >= 0 && roomy) return { sizePt, widths };
  }
  return null;
}

/** What a column needs for its own text; nothing for one that grows. */
function ownWidth(table: Table, column: Column, at: number, sizePt: number): number {
  if (column.grow !== undefined) return 0;
  const head = widest(column.head.split(" "), { sizePt: headPt(sizePt), bold: true });
  const own = cellsAt(table, at).map((cell) =>
    Math.min(MOST_MM, cellWidth(cell, sizePt, column.bold === true || cell.bold === true)),
  );
  return Math.max(
    column.blankMm ?? 0,
    Math.max(head, ...own, longestWord(table, at, sizePt)) + 2 * PAD_MM + barsWidth(column) + HAIR_MM,
  );
}

/** What a column keeps on its left for thick bars, mm. */
export const barsWidth = ({ bars }: Column): number => (bars === true ? BARS_MM : 0);

/** Width of a cell on one line: frame and number, text, the smaller line under it. */
function cellWidth({ text, under = "", number }: Cell, sizePt: number, bold: boolean): number {
  return Math.max(
    numberWidth(number, sizePt) + textWidth(oneLine(text), { sizePt, bold }),
    textWidth(oneLine(under), { sizePt: headPt(sizePt), bold: false }),
  );
}

/** What the framed number before a text takes, mm. */
export function numberWidth(number: string | undefined, sizePt: number): number {
  return number === undefined ? 0 : textWidth(number, { sizePt, bold: true }) + 2.6;
}

/** The longest word of a column, beside the number that all lines of its cell keep clear of, mm. */
function longestWord(table: Table, at: number, sizePt: number): number {
  const bold = true;
  const words = cellsAt(table, at).flatMap(({ text, number }) =>
    text.split(" ").map((word) => numberWidth(number, sizePt) + textWidth(oneLine(word), { sizePt, bold })),
  );
  return Math.min(MOST_MM, Math.max(0, ...words));
}

/** Cells of one column that stand in it alone. */
function cellsAt(table: Table, at: number): Cell[] {
  return table.rows.flatMap(({ cells, strong, leads }) => {
    let column = 0;
    for (const cell of cells) {
      if (column === at && (cell.span ?? 1) === 1)
        return [strong === true || leads === true ? { ...cell, bold: true } : cell];
      column += cell.span ?? 1;
    }
    return [];
  });
}

function widest(words: readonly string[], face: { readonly sizePt: number; readonly bold: boolean }): number {
  return Math.max(0, ...words.map((word) => textWidth(oneLine(word), face)));
}

/** Text as paper can show it, unbroken. */
function oneLine(text: string): string {
  return wrap(text, Infinity, { sizePt: 1, bold: false })[0] ?? "";
}
