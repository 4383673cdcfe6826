import { done, failed, type Outcome } from "../../kernel/index.ts";
import type { Plan } from "../../plan/index.ts";
import { delimitedSheet } from "./delimited.ts";
import { clockForm, layoutOf } from "./heads.ts";
import { linksFrom } from "./links.ts";
import { placesFrom } from "./places.ts";
import { fitted, type ListRead, listRead, type Reading, rowsUnder } from "./reading.ts";
import { LARGEST_LIST, type Sheet, TOO_LARGE } from "./sheet.ts";
import { type ListKind, targetOf } from "./targets.ts";
import { tasksFrom } from "./tasks.ts";
import { clocksIn, markIn } from "./values.ts";
import { workbookSheets } from "./workbook.ts";

/** Lists that others write in spreadsheets: requests, places and links, as they are, into the plan. */

export { delimitedSheet } from "./delimited.ts";
export { layoutAt, unitOf } from "./heads.ts";
export type { Question } from "./questions.ts";
export type { ListRead, Reading, RowOutcome } from "./reading.ts";
export { LARGEST_LIST, TOO_LARGE } from "./sheet.ts";
export type { Sheet } from "./sheet.ts";
export { targetOf, TARGETS, UNITS } from "./targets.ts";
export type { ListKind } from "./targets.ts";

/** The sheets of a file of any of the known forms, or why it cannot be read. Sheets without any text are left out. */
export function sheetsIn(name: string, bytes: Uint8Array): Outcome<readonly Sheet[], string> {
  if (bytes.length > LARGEST_LIST) return failed(TOO_LARGE);
  const zipped = bytes[0] === 0x50 && bytes[1] === 0x4b;
  const old = bytes[0] === 0xd0 && bytes[1] === 0xcf;
  const read = zipped || old ? workbookSheets(bytes) : textSheets(name, bytes);
  if (!read.ok) return read;
  const filled = read.value.filter(({ rows }) => rows.some((row) => row.some((text) => text.trim() !== "")));
  return filled.length === 0 ? failed("it is empty") : done(filled);
}

/** Text in UTF-8, or in UTF-16 with its mark; what is neither is taken for the western letters of older spreadsheets. */
function textSheets(name: string, bytes: Uint8Array): Outcome<readonly Sheet[], string> {
  const wide = (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);
  let text: string;
  try {
    const form = wide ? (bytes[0] === 0xff ? "utf-16le" : "utf-16be") : "utf-8";
    text = new TextDecoder(form, { fatal: true }).decode(bytes);
  } catch {
    text = new TextDecoder("windows-1252").decode(bytes);
  }
  const sheet = delimitedSheet(name, text);
  return sheet.ok ? done([sheet.value]) : sheet;
}

/** How a sheet is read at first: where its heads seem to be, what they seem to mean; null where nothing looks like a list. */
export function firstReading(sheet: Sheet): Reading | null {
  const layout = layoutOf(sheet);
  if (!layout) return null;
  const times = layout.columns.flatMap(({ target }, k) =>
    targetOf(layout.kind, target)?.sort === "time" ? [k] : [],
  );
  const said = times.flatMap((k) => clockForm(sheet.rows[layout.headRow]?.[k] ?? "") ?? []);
  const lengths = times.flatMap((k) => sheet.rows.slice(layout.headRow + 1).map((row) => row[k] ?? ""));
  const clocks = said[0] ?? clocksIn(lengths);
  return { ...layout, mark: markIn(sheet.rows.flat()), clocks, answers: new Map() };
}

const FROM: Readonly<Record<ListKind, typeof tasksFrom>> = {
  tasks: tasksFrom,
  places: placesFrom,
  links: linksFrom,
};

/** What a sheet would make of the plan, read in this way. The plan is not changed. */
export function readList(plan: Plan, sheet: Sheet, reading: Reading): ListRead {
  const rows = rowsUnder(sheet, reading);
  const made = fitted(plan, rows, reading, (some) => FROM[reading.kind](plan, some, reading));
  return listRead(sheet, reading, rows, made, plan);
}
