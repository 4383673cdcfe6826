import { unitNamed } from "../../words/index.ts";
import type { Sheet } from "./sheet.ts";
import { type ListKind, type Sort, type Target, TARGETS, UNITS } from "./targets.ts";
import type { ClockForm } from "./values.ts";

/** Where the heads of a list stand, what they say, and what its columns may mean. */

/** One column of a list. */
interface Column {
  /** What stands over it, behind the word of its group where that tells what it means. */
  readonly head: string;
  /** The target it fills; null where it is not taken. */
  readonly target: string | null;
  /** Unit of its bare numbers; "" where it holds none. */
  readonly unit: string;
}

export interface Layout {
  readonly kind: ListKind;
  /** The row of the heads, from 0. */
  readonly headRow: number;
  readonly columns: readonly Column[];
}

/** The heads are looked for in so many rows. */
const SEARCHED = 40;

/** The head row and the kind of list under which most columns mean something; null where nothing looks like a head. */
export function layoutOf(sheet: Sheet): Layout | null {
  let best: Layout | null = null;
  let most = 1;
  for (let row = 0; row < Math.min(SEARCHED, sheet.rows.length - 1); row += 1) {
    for (const kind of ["tasks", "places", "links"] as const) {
      const layout = layoutAt(sheet, row, kind);
      const meant = layout.columns.filter((column) => column.target !== null).length;
      if (meant > most) [best, most] = [layout, meant];
    }
  }
  return best;
}

/** The columns of a list of a kind with its heads in a given row. */
export function layoutAt(sheet: Sheet, headRow: number, kind: ListKind): Layout {
  const heads = headsAt(sheet, headRow);
  const fits = heads.flatMap((head, column) =>
    TARGETS[kind].map((target) => ({ column, target, fit: fitOf(head, target) })),
  );
  const taken = new Map<number, { readonly target: Target; readonly fit: number }>();
  const filled = new Set<string>();
  // The best fit first; between equals the column further left.
  for (const { column, target, fit } of fits.sort((a, b) => b.fit - a.fit || a.column - b.column)) {
    if (fit === 0 || taken.has(column) || filled.has(target.id)) continue;
    taken.set(column, { target, fit });
    filled.add(target.id);
  }
  return {
    kind,
    headRow,
    columns: heads.map(({ words, over, unit }, column) => {
      const found = taken.get(column);
      // Where a group ends nobody can tell: its word is said where it helped.
      const head = found?.fit === WITH_GROUP ? `${over}: ${words}` : words;
      const sort = found?.target.sort;
      if (isForeign(sort, unit)) return { head: `${head} (${unit})`, target: null, unit: "" };
      return { head, target: found?.target.id ?? null, unit: unitOf(sort, unit) };
    }),
  };
}

/** The unit of bare numbers in a column of a sort: the head's where it names one, else the usual one. */
export function unitOf(sort: Sort | undefined, named: string): string {
  const units = Object.keys((sort && UNITS[sort]) ?? {});
  return units.find((unit) => unit.toLowerCase() === named.toLowerCase()) ?? units[0] ?? "";
}

/** Units that people write and no column is read in: a number under one of them would be taken for another amount. */
const FOREIGN: ReadonlySet<string> = new Set(
  [
    "lb lbs pound pounds oz ounce ounces st stone t ton tons tonne tonnes mg",
    "ft foot feet in inch inches yd yard yards mi mile miles nm mm cm dm",
    "d day days week weeks ms",
    "gal gallon gallons qt pt pint pints cl dl ft3 in3 cm3 m3",
  ].flatMap((words) => words.split(" ")),
);

/** Whether a head names a unit in which amounts of its sort are not read: no such column is taken by itself. */
function isForeign(sort: Sort | undefined, named: string): boolean {
  const own = sort && UNITS[sort];
  if (!own) return false;
  const is = (unit: string): boolean => unit.toLowerCase() === named.toLowerCase();
  const others = Object.values(UNITS).flatMap((units) => Object.keys(units));
  return !Object.keys(own).some(is) && (FOREIGN.has(named.toLowerCase()) || others.some(is));
}

interface Head {
  readonly words: string;
  /** The word of its group. */
  readonly over: string;
  readonly leaf: string;
  readonly group: string;
  readonly unit: string;
}

function headsAt(sheet: Sheet, headRow: number): Head[] {
  const leaves = sheet.rows[headRow] ?? [];
  const groups = groupsOver(sheet, headRow);
  const width = Math.max(0, ...sheet.rows.slice(headRow).map((row) => row.length));
  return Array.from({ length: width }, (_, column): Head => {
    const group = groups[column] ?? "";
    const { name, unit } = unitIn((leaves[column] ?? "").trim());
    const own = name === "" ? group : name;
    return { words: own, over: group === own ? "" : group, leaf: plain(own), group: plain(group), unit };
  });
}

/**
 * The words of joined heads: a row right above the heads with texts over some of the columns, each of which goes on to the
 * next text. A single text at the far left is a title.
 */
function groupsOver(sheet: Sheet, headRow: number): readonly string[] {
  const above = sheet.rows[headRow - 1] ?? [];
  const texts = new Set(above.map((text) => text.trim()).filter((text) => text !== ""));
  if (texts.size === 0 || (texts.size === 1 && (above[0] ?? "").trim() !== "")) return [];
  let group = "";
  const width = sheet.rows[headRow]?.length ?? 0;
  return Array.from({ length: width }, (_, column) => {
    const text = (above[column] ?? "").trim();
    if (text !== "") group = text;
    return group;
  });
}

/** The unit in brackets or after a comma at the end of a head, and the head without it; a head that is a unit is both. */
function unitIn(text: string): { readonly name: string; readonly unit: string } {
  const [, name = text, bracketed, after] = /^(.*\S)\s*(?:[([]\s*(.*?)\s*[)\]]|,\s*(\S+))$/.exec(text) ?? [];
  const itself = /^(min(ute)?s|hours)$/i.test(name) ? name : "";
  return { name, unit: unitAmong(bracketed ?? after ?? itself) };
}

/** Every unit that a column is read in. */
const OWN: ReadonlySet<string> = new Set(
  Object.values(UNITS).flatMap((units) => Object.keys(units).map((unit) => unit.toLowerCase())),
);

/** The unit among the words of a bracket, `in hours` or `g, dry`; the words themselves where none or more than one is. */
function unitAmong(words: string): string {
  const named = [...words.matchAll(/[^\s,;:.()]+/g)].map(([word]) => unitNamed(word));
  const own = [...new Set(named.filter((word) => OWN.has(word.toLowerCase())))];
  const foreign = named.filter((word) => FOREIGN.has(word.toLowerCase()));
  // A form of clock, `h:mm`, is no unit of bare numbers.
  if (clockForm(words) !== null) return words;
  if (own.length === 1) return own[0]!;
  return own.length === 0 && foreign.length === 1 ? foreign[0]! : unitNamed(words);
}

/** What a head says of lengths of two numbers: `(h:mm)`, `[mm:ss]`; null where it says nothing of them. */
export function clockForm(head: string): ClockForm | null {
  if (/\bh{1,2}:m{1,2}\b/i.test(head)) return "h:mm";
  return /\bm{1,2}:s{1,2}\b/i.test(head) ? "m:ss" : null;
}

/** The fit of a head that names a target together with its group. */
const WITH_GROUP = 4;

/** How well a head fits a target: with its group, by itself, among the later words, or not at all (0). */
function fitOf({ leaf, group }: Head, { heads }: Target): number {
  if (leaf === "") return 0;
  const place = (words: string): number => heads.findIndex((one) => one === words);
  if (group !== "" && group !== leaf && place(`${group} ${leaf}`) >= 0) return WITH_GROUP;
  const alone = place(leaf);
  return alone < 0 ? 0 : alone === 0 ? 3 : 3 - alone / heads.length;
}

/** Letters and digits in small letters with single spaces; a number sign stands for itself. */
export function plain(words: string): string {
  return words
    .toLowerCase()
    .replace(/[^\p{L}\d#]+/gu, " ")
    .trim();
}
