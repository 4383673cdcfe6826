import { unitNamed } from "../../words/index.ts";
import type { Column } from "../fields/table.ts";

/** The heads of a block from a spreadsheet: which column of a table each of its columns is meant for. Pure. */

/** One column of a block. */
export interface Head {
  readonly text: string;
  /** Its column in the table; null when it is none of the table's. */
  readonly column: number | null;
  /** The unit of its bare numbers, where the head names another one than the table's. */
  readonly unit: string;
}

const BARE_UNIT = /^(.*\S)\s+(m|km|kg|g|l|ml|min|mins|minutes|h|hrs?|hours|s|w|wh|kwh)$/i;
const MARKED_UNIT = /^(.*\S)\s*(?:[([]\s*(.*?)\s*[)\]]|[,/]\s*(\S+))$/;

/**
 * What `row` says over a table of these columns; null when it heads nothing: a head has two words of the table's, or no
 * other words at all. A column's own words come before the others by which it is known, so that what may mean two columns
 * ("Request": a name or a number) means the one that nothing says better.
 */
export function headsIn(row: readonly string[], columns: readonly Column[]): readonly Head[] | null {
  const read = row.map(partsOf);
  // Times of another count than the table's would be read as the table's.
  const fits = read.flatMap(({ name, unit }, at) =>
    name === "" || /^(utc|pet)$/i.test(unit)
      ? []
      : columns.flatMap((one, column) => {
          const rank = namesOf(one).indexOf(name);
          return rank < 0 ? [] : [{ at, column, rank }];
        }),
  );
  const columnAt = new Map<number, number>();
  const taken = new Set<number>();
  for (const { at, column } of fits.toSorted((a, b) => a.rank - b.rank)) {
    if (columnAt.has(at) || taken.has(column)) continue;
    columnAt.set(at, column);
    taken.add(column);
  }
  const heads = read.map(({ unit }, at): Head => {
    const column = columnAt.get(at) ?? null;
    const other = column !== null && unit !== columns[column]!.unit && /^[a-z%°/]+$/i.test(unit);
    return { text: row[at]!, column, unit: other ? unit : "" };
  });
  const written = heads.filter((head) => head.text.trim() !== "").length;
  return taken.size >= 2 || (taken.size > 0 && taken.size === written) ? heads : null;
}

/**
 * A text under a head: bare numbers with the head's unit. `25:00` under minutes may be hours or minutes: with the unit behind it it is no
 * length, so it is refused and asked about, not read as hours.
 */
export function underHead(text: string, { unit }: Head): string {
  const either = (unit === "min" || unit === "s") && /^\s*0*[1-9]\d*:\d\d\s*$/.test(text);
  if (either) return `${text.trim()} ${unit}`;
  return unit !== "" && /^[+−-]?[\d.,\s]+$/.test(text) ? `${text.trim()} ${unit}` : text;
}

function partsOf(text: string): { readonly name: string; readonly unit: string } {
  const [, name = text, bracketed, after] =
    MARKED_UNIT.exec(text.trim()) ?? BARE_UNIT.exec(text.trim()) ?? [];
  const unit = bracketed ?? after ?? (/^(min(ute)?s|hours)$/i.test(name.trim()) ? name.trim() : "");
  return { name: plain(name), unit: unitNamed(unit) };
}

/** The words of a column, the surest first. */
function namesOf({ label, group, heads = [] }: Column): readonly string[] {
  return [label, `${group} ${label}`, `${label} ${group}`, ...heads].map(plain);
}

function plain(words: string): string {
  return words
    .toLowerCase()
    .replace(/[^\p{L}\d]+/gu, " ")
    .trim();
}
