import type { Block } from "../flow.ts";
import { line, type Mark, rect, type Tag, tagged, text } from "../page.ts";
import { within } from "../pieces.ts";
import { CAP, type Face, linesHeight, MM_PER_PT, RISE, wrap } from "../type.ts";
import { type Cell, type Column, EMPTY, type Row, type Table } from "./body.ts";
import { barsWidth, type Fit, headPt, numberWidth, PAD_MM } from "./fit.ts";
import type { SheetBlock } from "./pages.ts";

/** A row that somebody writes into is so high, mm. */
const WRITTEN_MM = 6.4;
/** Space above and below the text of a row, mm. */
const AIR_MM = 0.55;
/** A table of so few rows is not parted, and of a longer one no row stands alone before or after a new page. */
const FEW_ROWS = 6;
/** More space above a row that leads others, mm. */
const LEAD_AIR_MM = 1.2;
const HAIR = 0.12;
const FRAME = 0.25;

/**
 * A table as blocks, one a row, each of which has the head stand over it again where it begins a page. Only a row that no page of
 * `roomMm` holds goes on in another.
 */
export function tableBlocks(table: Table, fit: Fit, left: number, roomMm: number): SheetBlock[] {
  const tag: Tag = { role: "Table" };
  const head = within(tag, headBlock(table, fit, left));
  const written = table.columns.some(({ blankMm }) => blankMm !== undefined);
  const most = Math.floor((roomMm - head.height - 2 * AIR_MM) / linesHeight(1, fit.sizePt)) - 1;
  let over: Block = head;
  return [
    head,
    ...table.rows.flatMap((row, i) => {
      const stays = staysWithNext(i, table.rows.length);
      const blocks = pieces(setRow(table, row, fit, left), most).map((piece) =>
        within(tag, rowBlock(piece, fit, left, written, row)),
      );
      const [first] = blocks;
      const again = row.leads === true ? head : over;
      if (row.leads === true && first) over = both(head, first);
      return blocks.map((block) => ({ ...block, again, keep: block.keep === true || stays }));
    }),
  ];
}

/** Whether a row is kept on one page with the row after it. */
function staysWithNext(at: number, rows: number): boolean {
  if (at === rows - 1) return false;
  return rows <= FEW_ROWS || at === 0 || at === rows - 2;
}

/** One block under the other as one. */
function both(upper: Block, lower: Block): Block {
  return {
    height: upper.height + lower.height,
    draw: (y) => [...upper.draw(y), ...lower.draw(y + upper.height)],
  };
}

interface Placed {
  readonly cell: Cell;
  /** Begins a group of columns. */
  readonly opens: boolean;
  readonly column: Column;
  readonly x: number;
  readonly wide: number;
}

/** The cells of a row with where they stand; columns that it says nothing of are empty. */
function placed(table: Table, row: Row, { widths }: Fit, left: number): Placed[] {
  const list: Placed[] = [];
  let [at, x] = [0, left];
  for (let k = 0; at < table.columns.length; k += 1) {
    const cell = row.cells[k] ?? EMPTY;
    const span = cell.span ?? 1;
    const wide = widths.slice(at, at + span).reduce((sum, one) => sum + one, 0);
    const column = table.columns[at];
    const opens = column?.group !== undefined && column.group !== table.columns[at - 1]?.group;
    if (column) list.push({ cell, column, opens, x, wide });
    at += span;
    x += wide;
  }
  return list;
}

/** The cells of a row with their texts broken into lines. */
function setRow(table: Table, row: Row, fit: Fit, left: number): SetCell[] {
  const { sizePt } = fit;
  return placed(table, row, fit, left).map((one) => {
    const bold =
      row.strong === true || row.leads === true || one.column.bold === true || one.cell.bold === true;
    const before = numberWidth(one.cell.number, sizePt);
    const inner = one.wide - 2 * PAD_MM - barsWidth(one.column);
    const lines = one.cell.text === "" ? [] : wrap(one.cell.text, inner - before, { sizePt, bold });
    const under = one.cell.under === undefined ? [] : wrap(one.cell.under, inner, underFace(sizePt));
    return { ...one, bold, before, lines, under };
  });
}

/** A row in pieces of at most so many lines; nearly every row is one. */
function pieces(row: readonly SetCell[], most: number): (readonly SetCell[])[] {
  const lines = Math.max(...row.map((one) => one.lines.length));
  if (lines <= most) return [row];
  return Array.from({ length: Math.ceil(lines / most) }, (_, k) =>
    row.map((one) => ({
      ...one,
      lines: one.lines.slice(k * most, (k + 1) * most),
      ...(k === 0 ? {} : { cell: { ...one.cell, number: undefined }, under: [] }),
    })),
  );
}

function rowBlock(
  row: readonly SetCell[],
  fit: Fit,
  left: number,
  written: boolean,
  { strong = false, leads = false, joined = false }: Row,
): SheetBlock {
  const { sizePt } = fit;
  const tall = (one: SetCell): number =>
    linesHeight(Math.max(one.lines.length, one.cell.number === undefined ? 0 : 1), sizePt) +
    linesHeight(one.under.length, headPt(sizePt));
  const content = Math.max(...row.map((one) => tall(one) + 2 * AIR_MM));
  const height = Math.max(written ? WRITTEN_MM : 0, content) + (leads ? LEAD_AIR_MM : 0);
  const cells = row.map(({ cell }): Tag => ({ role: "TD", span: cell.span ?? 1 }));
  const tag: Tag = { role: "TR", cells };
  const lowered = leads ? LEAD_AIR_MM : (height - content) / 2;
  return {
    height,
    keep: leads || joined,
    draw: (y) => [
      ...row.flatMap((one, i) => tagged(tagged(cellMarks(one, y, height, lowered, sizePt), cells[i]), tag)),
      ...(joined
        ? []
        : [line(left, y + height, left + total(fit), y + height, strong || leads ? FRAME : HAIR)]),
    ],
  };
}

interface SetCell extends Placed {
  readonly bold: boolean;
  readonly before: number;
  readonly lines: readonly string[];
  readonly under: readonly string[];
}

function cellMarks(one: SetCell, y: number, height: number, lowerMm: number, sizePt: number): Mark[] {
  const { cell, column, x, wide, bold, before, lines, under } = one;
  const { align = "left" } = column;
  const top = y + lowerMm + AIR_MM + RISE * sizePt * MM_PER_PT;
  const bars = barsWidth(column);
  const from = { left: x + PAD_MM + bars + before, right: x + wide - PAD_MM, centre: x + wide / 2 }[align];
  const below = top + linesHeight(Math.max(0, lines.length - 1), sizePt) + linesHeight(1, headPt(sizePt));
  const isBlank = column.blankMm !== undefined;
  return [
    ...(isBlank ? [line(x, y, x, y + height, FRAME), line(x + wide, y, x + wide, y + height, FRAME)] : []),
    ...(one.opens ? [line(x, y, x, y + height, HAIR)] : []),
    ...(cell.bar === true ? [line(x + PAD_MM + bars / 2, y, x + PAD_MM + bars / 2, y + height, 1)] : []),
    ...(cell.goesOn === true
      ? [line(x + PAD_MM + 1.5, y + 0.6, x + PAD_MM + 1.5, y + height - 0.6, FRAME)]
      : []),
    ...(cell.number === undefined ? [] : framedNumber(cell.number, sizePt).draw(x + PAD_MM + bars, top)),
    ...lines.flatMap((words, i) => text(from, top + linesHeight(i, sizePt), words, { sizePt, bold, align })),
    ...under.flatMap((words, i) =>
      text(from, below + linesHeight(i, headPt(sizePt)), words, { ...underFace(sizePt), align }),
    ),
  ];
}

const underFace = (sizePt: number) => ({ sizePt: headPt(sizePt), bold: false });

/** A task's number in its frame, and what it takes before a text. */
export function framedNumber(
  number: string,
  sizePt: number,
): { readonly wideMm: number; draw(x: number, baseline: number): Mark[] } {
  const high = CAP * sizePt * MM_PER_PT;
  const wideMm = numberWidth(number, sizePt);
  return {
    wideMm,
    draw: (x, baseline) => [
      rect(x, baseline - high - 0.5, wideMm - 1, high + 1, FRAME),
      ...text(x + 0.8, baseline, number, { sizePt, bold: true }),
    ],
  };
}

/** The heads of the columns, with what stands over several of them. */
function headBlock(table: Table, fit: Fit, left: number): SheetBlock {
  const face = { sizePt: headPt(fit.sizePt), bold: true };
  const heads = placed(table, { cells: table.columns.map(({ head }) => ({ text: head })) }, fit, left).map(
    (one) => ({
      ...one,
      lines: wrap(one.cell.text, one.wide - 2 * PAD_MM, face),
    }),
  );
  const groups = groupsOf(table, fit, left).map((one) => ({
    ...one,
    lines: one.group === "" ? [] : wrap(one.group, one.wide - 2 * PAD_MM, face),
  }));
  const over = linesHeight(Math.max(0, ...groups.map(({ lines }) => lines.length)), face.sizePt);
  const most = Math.max(...heads.map(({ lines }) => lines.length));
  const height = over + linesHeight(most, face.sizePt) + 2 * AIR_MM;
  const headTags = heads.map(({ cell }): Tag => ({ role: cell.text === "" ? "TD" : "TH" }));
  const headRow: Tag = { role: "TR", cells: headTags };
  const overTags = groups.map(({ group, span }): Tag => ({ role: group === "" ? "TD" : "TH", span }));
  const overRow: Tag = { role: "TR", cells: overTags };
  return {
    height,
    keep: true,
    draw: (y) => [
      ...groups.flatMap((one, k) => overMarks(one, y, over, face, [overTags[k], overRow])),
      ...heads.flatMap(({ column, lines, x, wide }, k) => {
        const { align = column.blankMm === undefined ? "left" : "centre" } = column;
        const from = { left: x + PAD_MM + barsWidth(column), right: x + wide - PAD_MM, centre: x + wide / 2 }[
          align
        ];
        // Heads stand on the rule, whatever number of lines they have.
        const first =
          y + height - AIR_MM - linesHeight(lines.length, face.sizePt) + RISE * face.sizePt * MM_PER_PT;
        const words = lines.flatMap((one, i) =>
          text(from, first + linesHeight(i, face.sizePt), one, { ...face, align }),
        );
        return tagged(tagged(words, headTags[k]), headRow);
      }),
      line(left, y + height, left + total(fit), y + height, 0.4),
    ],
  };
}

/** What stands over several columns, in the middle, with a line under it. */
function overMarks(
  { group, lines, x, wide }: Group & { readonly lines: readonly string[] },
  y: number,
  highMm: number,
  face: Face,
  [cell, row]: readonly [Tag | undefined, Tag],
): Mark[] {
  if (group === "") return [];
  const words = lines.flatMap((one, i) =>
    text(x + wide / 2, y + linesHeight(i, face.sizePt) + RISE * face.sizePt * MM_PER_PT, one, {
      ...face,
      align: "centre",
    }),
  );
  return [...tagged(tagged(words, cell), row), line(x + 0.5, y + highMm, x + wide - 0.5, y + highMm, HAIR)];
}

interface Group {
  /** Empty over columns that have none. */
  readonly group: string;
  readonly x: number;
  wide: number;
  /** Columns under it. */
  span: number;
}

/** What stands over the columns, each of them once. */
function groupsOf(table: Table, { widths }: Fit, left: number): Group[] {
  const groups: Group[] = [];
  let x = left;
  table.columns.forEach(({ group = "" }, i) => {
    const wide = widths[i] ?? 0;
    const open = groups.at(-1);
    if (open?.group === group) {
      open.wide += wide;
      open.span += 1;
    } else groups.push({ group, x, wide, span: 1 });
    x += wide;
  });
  return groups;
}

function total({ widths }: Fit): number {
  return widths.reduce((sum, one) => sum + one, 0);
}
