import { isEqual } from "../../kernel/index.ts";
import { type Fault, parse, type Plan } from "../../plan/index.ts";
import { unguarded } from "../csv.ts";
import type { Layout } from "./heads.ts";
import type { Answers, Question } from "./questions.ts";
import { amountOf, hangsOnClock, hangsOnMark, type Written } from "./values.ts";
import type { Sheet } from "./sheet.ts";
import { type Sort, targetOf } from "./targets.ts";

/** What a list is read by: where its heads are, what its columns and words mean, and how its numbers are written. */
export interface Reading extends Layout, Written {
  readonly answers: Answers;
}

/** What becomes of one row of the list. */
export interface RowOutcome {
  /** Its row in the sheet, from 1. */
  readonly line: number;
  /** The requester's number; "" where there is none. */
  readonly number: string;
  readonly name: string;
  readonly state: "new" | "changed" | "same" | "left out";
  /** What changes, or why it is left out. */
  readonly says: readonly string[];
  /** What of it is lost, a phrase each. */
  readonly lost: readonly string[];
}

/** What a list would make of the plan. */
export interface ListRead {
  readonly questions: readonly Question[];
  readonly rows: readonly RowOutcome[];
  /** Columns that are not taken, with how many cells of theirs hold something. */
  readonly unread: readonly { readonly head: string; readonly cells: number }[];
  /** What the planner must give afterwards, and what else is to be known: a sentence each. */
  readonly notes: readonly string[];
  /** Cells that another decimal mark would make other numbers. */
  readonly eitherMark: number;
  /** The first length that is another one as minutes and seconds than as hours and minutes, and how many there are; null for none. */
  readonly eitherClock: { readonly text: string; readonly cells: number } | null;
  /** The branches of the plan with the list in it. */
  readonly parts: Partial<Plan>;
}

/** A row under the heads: its texts by target, blank ones left out. */
export interface Row {
  readonly line: number;
  readonly cells: ReadonlyMap<string, string>;
}

/** What becomes of the rows, before the plan has been asked whether it takes it. */
export interface Made {
  readonly questions: readonly Question[];
  readonly rows: readonly RowOutcome[];
  readonly notes: readonly string[];
  readonly parts: Partial<Plan>;
  /** Which row stands behind a path of the plan's faults; null for none. */
  rowAt(path: string): Row | null;
}

/** The rows under the heads that say anything. */
export function rowsUnder(sheet: Sheet, { headRow, columns }: Layout): readonly Row[] {
  return sheet.rows.slice(headRow + 1).flatMap((texts, i): Row[] => {
    const cells = new Map<string, string>();
    for (const [k, column] of columns.entries()) {
      const text = unguarded((texts[k] ?? "").trim());
      if (column.target !== null && text !== "") cells.set(column.target, text);
    }
    return cells.size === 0 ? [] : [{ line: headRow + 2 + i, cells }];
  });
}

/** Every text of a column that is filled, in order. */
export function textsOf(rows: readonly Row[], target: string): readonly string[] {
  return rows.flatMap(({ cells }) => cells.get(target) ?? []);
}

/**
 * Asks the plan whether it takes what was made; rows with faults are left out with their reasons, and the rest is made
 * anew without them. `make` makes it of the rows it is given.
 */
export function fitted(
  plan: Plan,
  all: readonly Row[],
  reading: Reading,
  make: (rows: readonly Row[]) => Made,
): Made {
  const refused = new Map<Row, string>();
  for (;;) {
    const rows = all.filter((row) => !refused.has(row));
    const made = make(rows);
    const read = parse({ ...plan, ...made.parts });
    const before = refused.size;
    let whole: string | null = null;
    for (const fault of read.ok ? [] : read.error) {
      const row = made.rowAt(fault.path);
      if (row) refused.set(row, faultOf(row, reading, fault));
      else whole ??= `${fault.path}: ${fault.message}`;
    }
    const left = [...refused].map(([row, why]) => leftOut(row, why));
    const merged = { ...made, rows: [...made.rows, ...left].sort((a, b) => a.line - b.line) };
    if (read.ok) return merged;
    if (refused.size > before) continue;
    return {
      ...merged,
      parts: {},
      notes: [...merged.notes, `The plan cannot take it: ${whole ?? "it has faults"}.`],
    };
  }
}

/** Which target of a list fills a field of the plan, by the last names of its path. */
const FILLED_BY: readonly (readonly [path: string, target: string])[] = [
  ["duration.likelyS", "likely"],
  ["duration.lowS", "low"],
  ["duration.highS", "high"],
  ["massOutKg", "massOut"],
  ["sample.massKg", "massBack"],
  ["sample.volumeL", "volumeBack"],
  ["walkM", "walk"],
  ["worth", "worth"],
  ["notes", "notes"],
  ["name", "name"],
  ["eastM", "east"],
  ["northM", "north"],
  ["upM", "up"],
  ["leastS", "least"],
  ["greatestS", "greatest"],
];

/** A fault of the plan with the cell that it comes from, where one cell says it. */
function faultOf({ cells }: Row, { kind }: Reading, { path, message }: Fault): string {
  const [, target = null] = FILLED_BY.find(([field]) => path.endsWith(`.${field}`)) ?? [];
  const label = targetOf(kind, target)?.label;
  const text = cells.get(target ?? "");
  return label === undefined || text === undefined ? message : `${label} “${text}” ${message}`;
}

/** Why a cell that a row cannot do without gives nothing: it is blank, or cannot be read. */
export function whyMissing(row: Row, target: string, kind: Reading["kind"], blank: string): string {
  const text = row.cells.get(target);
  return text === undefined ? blank : `${targetOf(kind, target)?.label ?? target} “${text}” cannot be read`;
}

export function leftOut({ line, cells }: Row, why: string): RowOutcome {
  const number = cells.get("number") ?? "";
  return { line, number, name: cells.get("name") ?? "", state: "left out", says: [why], lost: [] };
}

/** The whole answer: what was made, and what of the sheet is not read. */
export function listRead(
  sheet: Sheet,
  reading: Reading,
  rows: readonly Row[],
  made: Made,
  plan: Plan,
): ListRead {
  const unread = reading.columns.flatMap(({ head, target }, k) => {
    const cells = sheet.rows
      .slice(reading.headRow + 1)
      .filter((texts) => (texts[k] ?? "").trim() !== "").length;
    return target === null && cells > 0 ? [{ head: head === "" ? `column ${k + 1}` : head, cells }] : [];
  });
  const textsIn = (...sorts: readonly Sort[]): readonly string[] =>
    reading.columns.flatMap(({ target }) => {
      const sort = targetOf(reading.kind, target)?.sort;
      return sort !== undefined && sorts.includes(sort) ? textsOf(rows, target ?? "") : [];
    });
  const eitherMark = textsIn("mass", "length", "volume", "number").filter(hangsOnMark).length;
  const clocks = textsIn("time").filter(hangsOnClock);
  const [text] = clocks;
  const eitherClock = text === undefined ? null : { text, cells: clocks.length };
  const parts = Object.fromEntries(
    Object.entries(made.parts).filter(([key, part]) => !isEqual(part, plan[key as keyof Plan])),
  );
  return { ...made, parts, unread, eitherMark, eitherClock };
}

/** A measured cell of a row: undefined where it is blank; what cannot be read goes to `lost`. */
export function measured(row: Row, target: string, reading: Reading, lost: string[]): number | undefined {
  const text = row.cells.get(target);
  if (text === undefined) return undefined;
  const known = targetOf(reading.kind, target);
  const unit = reading.columns.find((column) => column.target === target)?.unit ?? "";
  const value = known ? amountOf(text, known.sort, unit, reading) : null;
  if (value === null) lost.push(`${known?.label ?? target} “${text}”`);
  return value ?? undefined;
}
