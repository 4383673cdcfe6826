import { baselineOf, setLines } from "../cuff.ts";
import type { Block } from "../flow.ts";
import { line, type Mark, rect, tagged, text } from "../page.ts";
import { linesHeight, textWidth, wrap } from "../type.ts";
import { type Cell, type Column, EMPTY, type Row, type Table } from "./body.ts";
import type { SheetBlock } from "./pages.ts";
import { framedNumber } from "./table.ts";

/**
 * Where a table is wider than the paper its rows are set as a card each: what it is on top, then every value behind its label, on cards alike in the
 * same places, long ones on lines of their own, blanks framed. Nothing is left out, and what the cards are about stands over them again on another page.
 */

const VALUE = { sizePt: 9, bold: false };
const STRONG = { ...VALUE, bold: true };
const LABEL = { sizePt: 7, bold: true, tight: true };
/** Between two values side by side; between a label and its value, mm. */
const APART_MM = 3;
const BEHIND_MM = 1.2;
/** A column whose text takes more than this share of the paper has lines of its own. */
const LONG = 0.6;
/** What goes on on a further line stands so far in, mm. */
const HANG_MM = 3;
/** A line with a blank on it, and the blank's frame, are so high, mm. */
const WRITTEN_MM = 5.8;
const BLANK_MM = 5;

export function cardBlocks(table: Table, left: number, wideMm: number): SheetBlock[] {
  const widths = widthsOf(table, wideMm);
  let about: Block | undefined;
  return cardsOf(table).flatMap((rows) => {
    const lines = linesOf(table, rows, widths, wideMm);
    const leads = rows[0].leads === true;
    const again = leads ? undefined : about;
    if (leads) about = { height: heightOf(lines), draw: (y) => stacked(lines, left, y) };
    return lines.map((one, i): SheetBlock => {
      const last = i === lines.length - 1 && !leads;
      return {
        height: one.height + (last ? 1.4 : 0),
        keep: !last,
        ...(again ? { again } : {}),
        draw: (y) => [
          ...one.draw(left, y),
          ...(last ? [line(left, y + one.height + 0.8, left + wideMm, y + one.height + 0.8, 0.12)] : []),
        ],
      };
    });
  });
}

type Card = readonly [Row, ...Row[]];

/** The rows of each card: one, and with it those that it is joined with. */
function cardsOf({ rows }: Table): Card[] {
  const cards: [Row, ...Row[]][] = [];
  rows.forEach((row, i) => {
    if (rows[i - 1]?.joined === true) cards.at(-1)?.push(row);
    else cards.push([row]);
  });
  return cards;
}

function heightOf(lines: readonly Line[]): number {
  return lines.reduce((sum, { height }) => sum + height, 0);
}

/** Lines one under the other. */
function stacked(lines: readonly Line[], left: number, y: number): Mark[] {
  return lines.flatMap((one, i) => one.draw(left, y + heightOf(lines.slice(0, i))));
}

/** The title of a section, on as many lines as it takes. */
export function titleBlock(title: string, left: number, wideMm: number, sizePt: number): SheetBlock {
  const lines = wrap(title, wideMm, { sizePt, bold: true });
  return {
    height: linesHeight(lines.length, sizePt) + 2,
    keep: true,
    draw: (y) => tagged(setLines(lines, left, y + 1.6, { sizePt, bold: true }), { role: "H2" }),
  };
}

/** A cell with the columns that it covers. */
interface FilledCell {
  readonly cell: Cell;
  readonly column: Column;
  readonly at: number;
  /** How it is set: as what the card is about, across the card, or as a value behind its label. */
  readonly as: "name" | "words" | "value";
}

/** The cells of a row that say something or are to be written into. */
function filledCells(table: Table, row: Row): FilledCell[] {
  const list: FilledCell[] = [];
  let at = 0;
  for (let k = 0; at < table.columns.length; k += 1) {
    const cell = row.cells[k] ?? EMPTY;
    const column = table.columns[at];
    const says = wordsOf(cell) !== "" || cell.number !== undefined;
    if (column && (says || (column.blankMm !== undefined && row.leads !== true)))
      list.push({ cell, column, at, as: kindOf(row, cell, column, at) });
    at += cell.span ?? 1;
  }
  return list;
}

function kindOf(row: Row, cell: Cell, column: Column, at: number): FilledCell["as"] {
  const heavy = row.strong === true || row.leads === true;
  if (cell.number !== undefined || (at === 0 && (column.grow !== undefined || heavy))) return "name";
  return (cell.span ?? 1) > 1 ? "words" : "value";
}

function wordsOf({ text: words, under }: Cell): string {
  return [words, under === undefined ? "" : `(${under})`].filter((part) => part !== "").join(" ");
}

/** What the values of a column take on every card of a table, their label included; `null` for those that have lines of their own. */
type Widths = ReadonlyMap<number, number | null>;

function widthsOf(table: Table, wideMm: number): Widths {
  const widths = new Map<number, number>();
  for (const row of table.rows)
    for (const { cell, column, at, as } of filledCells(table, row))
      if (as === "value") {
        const own = Math.max(column.blankMm ?? 0, textWidth(oneLine(wordsOf(cell)), STRONG));
        widths.set(at, Math.max(widths.get(at) ?? 0, labelMm(table, at) + own));
      }
  return new Map([...widths].map(([at, wide]) => [at, wide > wideMm * LONG ? null : wide]));
}

/** A value with where it begins on its line. */
interface Placed extends FilledCell {
  readonly x: number;
}

/** What a value takes with those behind it that have the same head over them; by itself where it is not the first of them. */
function groupMm(values: readonly FilledCell[], from: number, widths: Widths): number {
  const group = values[from]?.column.group;
  const own = widths.get(values[from]?.at ?? -1) ?? 0;
  if (group === undefined || values[from - 1]?.column.group === group) return own;
  const end = values.findIndex(({ column }, i) => i > from && column.group !== group);
  const all = values.slice(from, end < 0 ? values.length : end);
  return all.reduce((sum, { at }) => sum + (widths.get(at) ?? 0) + APART_MM, -APART_MM);
}

/** Short values on as few lines as hold them, a group on a line of its own before it is broken, cards that have the same ones alike. */
function placedOf(values: readonly FilledCell[], widths: Widths, wideMm: number): Placed[][] {
  const lines: Placed[][] = [];
  let x = Infinity;
  for (const [i, value] of values.entries()) {
    const wide = widths.get(value.at) ?? 0;
    if (x + wide > wideMm || (x > 0 && x + groupMm(values, i, widths) > wideMm)) {
      lines.push([]);
      x = 0;
    }
    lines.at(-1)?.push({ ...value, x });
    x += wide + APART_MM;
  }
  return lines;
}

function labelMm(table: Table, at: number): number {
  return textWidth(labelOf(table, at), LABEL) + BEHIND_MM;
}

/** What a value is; what stands over several columns is said before the first of them. */
function labelOf({ columns }: Table, at: number): string {
  const [column, before] = [columns[at], columns[at - 1]];
  const group = column?.group === before?.group ? "" : (column?.group ?? "");
  return [group, column?.head ?? ""].filter((part) => part !== "").join(" ");
}

/** Text as paper can show it, unbroken. */
function oneLine(words: string): string {
  return wrap(words, Infinity, VALUE)[0] ?? "";
}

interface Line {
  readonly height: number;
  draw(left: number, y: number): Mark[];
}

/**
 * The lines of a card: what it is about, then everything in the order of the columns, short values side by side. What joined rows say in
 * one column stands together.
 */
function linesOf(table: Table, rows: Card, widths: Widths, wideMm: number): Line[] {
  const [{ strong, leads }] = rows;
  const face = strong === true || leads === true ? STRONG : VALUE;
  const filled = rows.flatMap((row) => filledCells(table, row)).sort((a, b) => a.at - b.at);
  const isShort = ({ as, at }: FilledCell): boolean => as === "value" && widths.get(at) !== null;
  const running = (one: FilledCell): Line[] =>
    runningLines(table, one, wideMm, one.as === "name" || one.cell.bold === true ? STRONG : face);
  const beside: FilledCell[][] = [];
  const facts = filled.filter(({ as }) => as !== "name");
  facts.forEach((one, k) => {
    const before = facts[k - 1];
    if (before && isShort(before) && isShort(one)) beside.at(-1)?.push(one);
    else beside.push([one]);
  });
  return [
    ...filled.filter(({ as }) => as === "name").flatMap(running),
    ...beside.flatMap((some) =>
      some.every(isShort)
        ? placedOf(some, widths, wideMm).map((values) => valuesLine(table, values, face))
        : some.flatMap(running),
    ),
  ];
}

/** Values side by side, each behind its label; what is to be written goes into a frame. */
function valuesLine(table: Table, values: readonly Placed[], face: typeof VALUE): Line {
  const isWritten = values.some(({ column }) => column.blankMm !== undefined);
  const height = isWritten ? WRITTEN_MM : linesHeight(1, VALUE.sizePt);
  const down = (height - linesHeight(1, VALUE.sizePt)) / 2;
  return {
    height,
    draw: (left, y) =>
      values.flatMap(({ cell, column, at, x }) => {
        const behind = left + x + labelMm(table, at);
        const baseline = baselineOf(y + down, VALUE.sizePt);
        return [
          ...tagged([
            ...text(left + x, baseline, labelOf(table, at), LABEL),
            ...text(behind, baseline, wordsOf(cell), cell.bold === true ? STRONG : face),
          ]),
          ...(column.blankMm === undefined
            ? []
            : [rect(behind, y + (height - BLANK_MM) / 2, column.blankMm, BLANK_MM, 0.25)]),
        ];
      }),
  };
}

/** What a card is about, words across it, or a long value behind its label: as many lines as it takes. */
function runningLines(
  table: Table,
  { cell, column, at, as }: FilledCell,
  wideMm: number,
  face: typeof VALUE,
): Line[] {
  if (column.blankMm !== undefined && wordsOf(cell) === "") return [blankLine(labelOf(table, at), wideMm)];
  const label = as === "value" || isOneOfSeveral(table, cell, at) ? labelOf(table, at) : "";
  const number = cell.number === undefined ? null : framedNumber(cell.number, face.sizePt);
  const behind = label === "" ? 0 : labelMm(table, at);
  const first = behind + (number?.wideMm ?? 0);
  const down = number ? 0.4 : 0;
  return wrap(wordsOf(cell), wideMm - HANG_MM, face, wideMm - first).map((words, i) => ({
    height: linesHeight(1, face.sizePt) + (i === 0 ? 2 * down : 0),
    draw: (left, y) =>
      i > 0
        ? setLines([words], left + HANG_MM, y, face)
        : tagged([
            ...text(left, baselineOf(y + down, face.sizePt), label, LABEL),
            ...(number?.draw(left + behind, baselineOf(y + down, face.sizePt)) ?? []),
            ...text(left + first, baselineOf(y + down, face.sizePt), words, face),
          ]),
  }));
}

/** Whether a task stands in one of several columns of tasks: which it is, is said before it. */
function isOneOfSeveral({ rows, columns }: Table, { number, span = 1 }: Cell, at: number): boolean {
  if (number === undefined || span > 1) return false;
  const numbered = rows.flatMap((row) => placesOf(row, columns.length));
  return numbered.some((other) => other !== at);
}

/** The columns of a row in which a numbered cell stands alone. */
function placesOf({ cells }: Row, columns: number): number[] {
  let at = 0;
  return cells.flatMap(({ number, span = 1 }) => {
    const own = at;
    at += span;
    return number !== undefined && span === 1 && own < columns ? [own] : [];
  });
}

/** A blank that needs the rest of a line behind its label. */
function blankLine(label: string, wideMm: number): Line {
  const behind = textWidth(label, LABEL) + BEHIND_MM;
  return {
    height: WRITTEN_MM,
    draw: (left, y) => [
      ...text(
        left,
        baselineOf(y + (WRITTEN_MM - linesHeight(1, VALUE.sizePt)) / 2, VALUE.sizePt),
        label,
        LABEL,
      ),
      rect(left + behind, y + (WRITTEN_MM - BLANK_MM) / 2, wideMm - behind, BLANK_MM, 0.25),
    ],
  };
}
