import { type Reading, type RememberedReadings, rowsIn, type Sheet } from "../../session/lists.ts";

/** One list that is open in the window. */
export interface Source {
  readonly key: string;
  readonly sheet: Sheet;
  /** How it is read at first; null where nothing in it looks like heads. */
  readonly reading: Reading | null;
}

/** Places first, since tasks name them; then tasks, since links name those. */
const ORDER: readonly (Reading["kind"] | undefined)[] = ["places", "tasks", "links", undefined];

/** Sheets as lists, in the order in which they are best taken. */
export function sourcesOf(sheets: readonly Sheet[], remembered: RememberedReadings): readonly Source[] {
  const sources = sheets.map((sheet, k) => ({
    key: `${k} ${sheet.name}`,
    sheet,
    reading: remembered.of(sheet),
  }));
  return sources.sort((a, b) => ORDER.indexOf(a.reading?.kind) - ORDER.indexOf(b.reading?.kind));
}

/** Rows that were pasted, as a list of their own. */
export function pastedList(text: string, remembered: RememberedReadings, before: number): readonly Source[] {
  const sheet = { name: "Pasted rows", rows: rowsIn(text) };
  return [{ key: `pasted ${before}`, sheet, reading: remembered.of(sheet) }];
}
