import Papa from "papaparse";
import { done, failed, type Outcome } from "../../kernel/index.ts";
import { LONGEST_CELL, MOST_ROWS, type Sheet, tooLarge } from "./sheet.ts";

/**
 * Rows of texts from text with tabs, commas or semicolons between (RFC 4180 quotes). What is copied from a spreadsheet has
 * tabs, so one tab anywhere in the first row decides; else the mark that gives the most even rows.
 */
export function rowsIn(text: string): readonly (readonly string[])[] {
  return /^[^\r\n]*\t/.test(text) ? tabbedRows(text) : split(text, "");
}

/** Rows of texts from what a spreadsheet copies: tabs between cells, whatever else stands in them. */
export function tabbedRows(text: string): readonly (readonly string[])[] {
  return split(text, "\t");
}

/** Rows split at `delimiter`, "" for the one that fits best. */
function split(text: string, delimiter: string): readonly (readonly string[])[] {
  // Line ends of several systems may stand in one text.
  const plain = text.replace(/^\uFEFF/, "").replace(/\r\n?/g, "\n");
  // One row more than is taken tells that there are more.
  const read = Papa.parse<string[]>(plain, {
    delimiter,
    newline: "\n",
    delimitersToGuess: ["\t", ",", ";", "|"],
    preview: MOST_ROWS + 1,
  });
  const rows = read.data.map((row) => row.map((cell) => cell.slice(0, LONGEST_CELL)));
  // A line end at the very end begins no row.
  if (rows.at(-1)?.join("") === "" && rows.at(-1)?.length === 1) rows.pop();
  return rows;
}

/** The sheet in a text file, or why there is none. */
export function delimitedSheet(name: string, text: string): Outcome<Sheet, string> {
  if (text.includes("\u0000")) return failed("it is no text");
  const rows = rowsIn(text);
  const why = tooLarge(rows.length, Math.max(0, ...rows.map((row) => row.length)));
  return why === null ? done({ name, rows }) : failed(why);
}
