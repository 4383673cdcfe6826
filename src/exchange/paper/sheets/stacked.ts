import { line, tagged, text } from "../page.ts";
import { linesHeight, MM_PER_PT, RISE, wrap } from "../type.ts";
import { setLines } from "../cuff.ts";
import type { Column, Row, Table } from "./body.ts";
import type { SheetBlock } from "./pages.ts";

/** Where a table is wider than the paper its rows are set as a paragraph each: what it is, then what it says. Nothing is left out. */

const SIZE_PT = 9;
const FACE = { sizePt: SIZE_PT, bold: false };
const STRONG = { sizePt: SIZE_PT, bold: true };
/** What is written by hand. */
const WRITE = "________";

export function stackedBlocks(table: Table, left: number, wideMm: number): SheetBlock[] {
  return table.rows.flatMap((row) => {
    const face = row.strong === true || row.leads === true ? STRONG : FACE;
    const goesOn = row.leads === true || row.joined === true;
    const [first = "", ...rest] = wrap(said(table, row), wideMm - 3, face);
    const one = (words: string, at: number, isEnd: boolean): SheetBlock => {
      const last = isEnd && !goesOn;
      return {
        height: linesHeight(1, SIZE_PT) + (last ? 1 : 0),
        keep: !last,
        draw: (y) => [
          ...setLines([words], left + at, y, face),
          ...(last
            ? [
                line(
                  left,
                  y + linesHeight(1, SIZE_PT) + 0.6,
                  left + wideMm,
                  y + linesHeight(1, SIZE_PT) + 0.6,
                  0.12,
                ),
              ]
            : []),
        ],
      };
    };
    return [
      one(first, 0, rest.length === 0),
      ...rest.map((words, i) => one(words, 3, i === rest.length - 1)),
    ];
  });
}

/** The title of a section. */
export function titleBlock(title: string, left: number, sizePt: number): SheetBlock {
  return {
    height: linesHeight(1, sizePt) + 2,
    keep: true,
    draw: (y) =>
      tagged(text(left, y + 1.6 + RISE * sizePt * MM_PER_PT, title, { sizePt, bold: true }), { role: "H2" }),
  };
}

function said(table: Table, row: Row): string {
  const words: string[] = [];
  let at = 0;
  let group: string | undefined;
  for (const cell of row.cells) {
    const column = table.columns[at];
    at += cell.span ?? 1;
    if (!column) continue;
    const value = [cell.number, cell.text, cell.under === undefined ? undefined : `(${cell.under})`]
      .filter((part) => part !== undefined && part !== "")
      .join(" ");
    if (value === "" && column.blankMm === undefined) continue;
    const speaks =
      words.length === 0 ||
      cell.number !== undefined ||
      // What stands across several columns is none of their values.
      (cell.span ?? 1) > 1 ||
      value.startsWith(`${column.head} `);
    words.push([...(speaks ? [] : label(column, group)), value === "" ? WRITE : value].join(" "));
    group = column.group;
  }
  return words.join("; ");
}

/** What a value is; what stands over several columns is said before the first of them. */
function label({ head, group }: Column, before: string | undefined): string[] {
  return [group === before ? "" : (group ?? ""), head].filter((part) => part !== "");
}
