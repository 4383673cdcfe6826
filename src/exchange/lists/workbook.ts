import { strFromU8, unzipSync } from "fflate";
import { done, failed, type Outcome } from "../../kernel/index.ts";
import { cellText, type RawCell, stylesIn } from "./cells.ts";
import { LONGEST_CELL, MOST_COLUMNS, MOST_ROWS, type Sheet, tooLarge } from "./sheet.ts";
import { walkXml } from "./xml.ts";

/**
 * The sheets of an Office Open XML workbook (ECMA-376). Only the parts that hold texts are taken out of the zip, none larger
 * than LARGEST_PART however it is packed; nothing is run, no link is followed, no entity of the file's own is put in. A
 * formula counts as the value that was kept with it, and is said to be without one where none was.
 */

/** What is read of a formula that nothing has worked out yet: no blank, which would stand for what nobody gave. */
const UNVALUED = "formula without a value";

const LARGEST_PART = 24 * 1024 * 1024;
const LARGEST_ALL = 48 * 1024 * 1024;
const WANTED =
  /^xl\/(workbook\.xml|_rels\/workbook\.xml\.rels|sharedStrings\.xml|styles\.xml|worksheets\/[^/]+\.xml)$/i;

/** Every sheet with its texts, or why the file cannot be read. */
export function workbookSheets(bytes: Uint8Array): Outcome<readonly Sheet[], string> {
  // The signature of the older binary form, in which locked workbooks are kept too.
  if (bytes[0] === 0xd0 && bytes[1] === 0xcf)
    return failed("it is a workbook of the older form, or a locked one: save it as .xlsx without a password");
  try {
    const parts = partsOf(bytes);
    const part = (name: string): string => parts.get(name.toLowerCase()) ?? "";
    const listed = sheetsOf(part("xl/workbook.xml"), part("xl/_rels/workbook.xml.rels"));
    if (listed.length === 0) return failed("it is no workbook");
    const shared = sharedTexts(part("xl/sharedstrings.xml"));
    const styles = stylesIn(part("xl/styles.xml"));
    return done(
      listed.map(({ name, path }) => ({
        name,
        rows: rowsOf(part(path), shared, (of) => cellText(of, styles)),
      })),
    );
  } catch (error) {
    return failed(error instanceof Error ? error.message : "it is damaged");
  }
}

/** The wanted parts as texts, by their names in small letters. */
function partsOf(bytes: Uint8Array): ReadonlyMap<string, string> {
  let all = 0;
  const files = unzipSync(bytes, {
    filter: ({ name, originalSize }) => {
      if (!WANTED.test(name)) return false;
      all += originalSize;
      if (originalSize > LARGEST_PART || all > LARGEST_ALL) throw new Error("it is too large unpacked");
      return true;
    },
  });
  return new Map(Object.entries(files).map(([name, part]) => [name.toLowerCase(), strFromU8(part)]));
}

function sheetsOf(workbook: string, relations: string): { readonly name: string; readonly path: string }[] {
  const targets = new Map<string, string>();
  walkXml(relations, {
    open(name, { Id = "", Target = "" }) {
      if (name === "Relationship") targets.set(Id, Target.startsWith("/") ? Target.slice(1) : `xl/${Target}`);
    },
  });
  const sheets: { name: string; path: string }[] = [];
  walkXml(workbook, {
    open(name, attributes) {
      const path = targets.get(attributes["r:id"] ?? "");
      if (name === "sheet" && path !== undefined) sheets.push({ name: attributes["name"] ?? "Sheet", path });
    },
  });
  return sheets;
}

/** Texts that cells share, in order; reading aids over the letters are left out. */
function sharedTexts(xml: string): readonly string[] {
  const texts: string[] = [];
  let now = "";
  let inText = false;
  let aside = false;
  walkXml(xml, {
    open(name) {
      if (name === "si") now = "";
      if (name === "rPh") aside = true;
      inText = name === "t" && !aside;
    },
    text: (text) => {
      if (inText) now = (now + text).slice(0, LONGEST_CELL);
    },
    close(name) {
      if (name === "rPh") aside = false;
      if (name === "t") inText = false;
      if (name === "si") texts.push(now);
    },
  });
  return texts;
}

function rowsOf(xml: string, shared: readonly string[], textOf: (cell: RawCell) => string): string[][] {
  const rows: string[][] = [];
  let at: { row: number; column: number } | null = null;
  let cell = { type: "", style: 0, value: "" };
  let isUnvalued = false;
  let inValue = false;
  let row = -1;
  let column = -1;
  walkXml(xml, {
    open(name, attributes) {
      if (name === "row") {
        row = attributes["r"] === undefined ? row + 1 : Number(attributes["r"]) - 1;
        column = -1;
      } else if (name === "c") {
        at = placeOf(attributes["r"] ?? "") ?? { row, column: column + 1 };
        ({ row, column } = at);
        cell = { type: attributes["t"] ?? "n", style: Number(attributes["s"] ?? 0), value: "" };
        isUnvalued = false;
      } else if (name === "mergeCell") merge(rows, attributes["ref"] ?? "");
      inValue = name === "v" || name === "t";
      if (name === "f") isUnvalued = true;
      if (inValue) isUnvalued = false;
    },
    text(text) {
      if (inValue && at) cell.value = (cell.value + text).slice(0, LONGEST_CELL);
    },
    close(name) {
      inValue = false;
      if (name !== "c" || !at) return;
      const value = cell.type === "s" ? (shared[Number(cell.value)] ?? "") : textOf(cell);
      const text = isUnvalued ? UNVALUED : value;
      if (text !== "") put(rows, at, text);
      at = null;
    },
  });
  return rows.map((one) => Array.from(one, (text) => text ?? ""));
}

function put(rows: string[][], { row, column }: { row: number; column: number }, text: string): void {
  const why = tooLarge(row + 1, column + 1);
  if (why !== null) throw new Error(why);
  while (rows.length <= row) rows.push([]);
  rows[row]![column] = text;
}

/** What is said once over joined cells counts in each of them. */
function merge(rows: string[][], reference: string): void {
  const [from, to] = reference.split(":").map(placeOf);
  if (!from || !to) return;
  const text = rows[from.row]?.[from.column];
  if (text === undefined) return;
  for (let row = from.row; row <= Math.min(to.row, rows.length - 1, MOST_ROWS); row += 1)
    for (let column = from.column; column <= Math.min(to.column, MOST_COLUMNS - 1); column += 1)
      rows[row]![column] ??= text;
}

function placeOf(reference: string): { row: number; column: number } | null {
  const [, letters, digits] = /^\$?([A-Z]{1,3})\$?(\d{1,7})$/.exec(reference) ?? [];
  if (letters === undefined) return null;
  const column = [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;
  return { row: Number(digits) - 1, column };
}
