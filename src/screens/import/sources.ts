import { done, type Outcome } from "../../kernel/index.ts";
import { delimitedSheet, type Reading, type RememberedReadings, type Sheet } from "../../session/lists.ts";

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

/** Rows that were pasted, as a list of their own, or why they are none. */
export function pastedList(
  text: string,
  remembered: RememberedReadings,
  before: number,
): Outcome<Source, string> {
  const read = delimitedSheet("Pasted rows", text);
  if (!read.ok) return read;
  return done({ key: `pasted ${before}`, sheet: read.value, reading: remembered.of(read.value) });
}
