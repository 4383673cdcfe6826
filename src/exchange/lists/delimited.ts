import Papa from "papaparse";
import { done, failed, type Outcome } from "../../kernel/index.ts";
import { LONGEST_CELL, MOST_ROWS, type Sheet, tooLarge } from "./sheet.ts";

/**
 * The sheet in a text with tabs, commas or semicolons between (RFC 4180 quotes), or why there is none. What is copied from a spreadsheet
 * has tabs, so one tab anywhere in the first row decides; else the mark that gives the most even rows.
 */
export function delimitedSheet(name: string, text: string): Outcome<Sheet, string> {
  if (text.includes(NO_QUOTE)) return failed("it is no text");
  const { rows, openRow } = /^[^\r\n]*\t/.test(text) ? tabbed(text) : split(text, "", QUOTE);
  // Rows behind it may be swallowed by that cell, and nobody can tell where it ends.
  if (openRow !== null)
    return failed(
      `a cell of its row ${openRow + 1} begins with a quotation mark and does not end with one, so where the next row begins cannot be told`,
    );
  const why = tooLarge(rows.length, Math.max(0, ...rows.map((row) => row.length)));
  return why === null ? done({ name, rows }) : failed(why);
}

/** Rows of texts from what a spreadsheet copies: tabs between cells, whatever else stands in them. */
export function tabbedRows(text: string): readonly (readonly string[])[] {
  return tabbed(text).rows;
}

interface Split {
  readonly rows: readonly (readonly string[])[];
  /** The row, from 0, in which a cell begins with a quotation mark and does not end with one; null for none. */
  readonly openRow: number | null;
}

const QUOTE = '"';
/** A sign that stands in no text: with it no cell is taken for a quoted one. */
const NO_QUOTE = "\u0000";

/** Between tabs cells are seldom quoted: where a quotation mark does not close it is a sign like any other. */
function tabbed(text: string): Split {
  const quoted = split(text, "\t", QUOTE);
  return quoted.openRow === null ? quoted : split(text, "\t", NO_QUOTE);
}

/** Rows split at `delimiter`, "" for the one that fits best. */
function split(text: string, delimiter: string, quoteChar: string): Split {
  // Line ends of several systems may stand in one text.
  const plain = text.replace(/^\uFEFF/, "").replace(/\r\n?/g, "\n");
  // One row more than is taken tells that there are more.
  const read = Papa.parse<string[]>(plain, {
    delimiter,
    newline: "\n",
    quoteChar,
    delimitersToGuess: ["\t", ",", ";", "|"],
    preview: MOST_ROWS + 1,
  });
  const rows = read.data.map((row) => row.map((cell) => cell.slice(0, LONGEST_CELL)));
  // A line end at the very end begins no row.
  if (rows.at(-1)?.join("") === "" && rows.at(-1)?.length === 1) rows.pop();
  const open = read.errors.find(({ type }) => type === "Quotes");
  return { rows, openRow: open ? (open.row ?? 0) : null };
}
