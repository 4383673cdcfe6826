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
 * other words at all.
 */
export function headsIn(row: readonly string[], columns: readonly Column[]): readonly Head[] | null {
  const taken = new Set<number>();
  const heads = row.map((text): Head => {
    const { name, unit } = partsOf(text);
    const column = columns.findIndex(
      (one, index) => !taken.has(index) && name !== "" && namesOf(one).includes(name),
    );
    // Times of another count than the table's would be read as the table's.
    if (column < 0 || /^(utc|pet)$/i.test(unit)) return { text, column: null, unit: "" };
    taken.add(column);
    const other = unit !== columns[column]!.unit && /^[a-z%°/]+$/i.test(unit);
    return { text, column, unit: other ? unit : "" };
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
  const unit = bracketed ?? after ?? "";
  return { name: plain(name), unit: unitNamed(unit) };
}

function namesOf({ label, group, heads = [] }: Column): readonly string[] {
  return [label, `${group} ${label}`, `${label} ${group}`, ...heads].map(plain);
}

function plain(words: string): string {
  return words
    .toLowerCase()
    .replace(/[^\p{L}\d]+/gu, " ")
    .trim();
}
