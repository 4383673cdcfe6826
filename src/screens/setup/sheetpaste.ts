import type { Plan } from "../../plan/index.ts";
import { failed, done, type Outcome } from "../../kernel/index.ts";
import { counted } from "../../words/index.ts";
import { type Entry, partsOf } from "../fields/entry.ts";
import { type Head, headsIn, underHead } from "./sheetheads.ts";
import { nearestWord } from "../fields/spelling.ts";
import type { Cell, Table } from "../fields/table.ts";

/** A block of texts as spreadsheets hand it over, and what it makes of a table. Pure. */

/** What a block would change. */
export interface Pasted {
  /** The branches of a plan with the block in it, to be asked of the plan it was read for. */
  readonly parts: Partial<Plan>;
  readonly cells: number;
  readonly added: number;
  /** What the planner should know of it, a sentence each: what was left out, and which names are there twice. */
  readonly notes: readonly string[];
}

/** Most faults that are told of one block, and most choices that are told instead of a wrong one. */
const MOST_FAULTS = 5;
const MOST_TOLD = 6;

/** Rows of texts as tab-separated text, quoted where a text needs it. */
export function textOf(rows: readonly (readonly string[])[]): string {
  const safe = (text: string): string => (/[\t\n"]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);
  return rows.map((row) => row.map(safe).join("\t")).join("\n");
}

/**
 * The block laid over the table from `line` and `column` on, in the order of `lines` (those that are shown). Under a
 * first row of heads each column goes where its head says. Rows past the last line are added where the table allows it;
 * empty texts and cells that do not apply are passed over. With any fault nothing is to be pasted and the first of them
 * are told.
 */
export function pastedOver(
  table: Table,
  plan: Plan,
  lines: readonly string[],
  from: { readonly row: number; readonly column: number },
  block: readonly (readonly string[])[],
): Outcome<Pasted, readonly string[]> {
  const heads = table.rows ? headsIn(block[0] ?? [], table.columns) : null;
  const laying = new Laying(table, plan, heads, from.column);
  const first = heads ? 1 : 0;
  for (const [i, texts] of block.slice(first).entries()) {
    if (!laying.row(lines[from.row + i], texts, first + i + 1)) break;
  }
  return laying.outcome();
}

/** A block on its way into a table: the plan so far, and what is to be told. */
class Laying {
  #now: Plan;
  #cells = 0;
  #added = 0;
  readonly #faults: string[] = [];
  readonly #leftOut = new Map<string, number>();
  readonly #blanks = new Map<string, number>();
  readonly #touched = new Set<string>();

  constructor(
    readonly table: Table,
    readonly plan: Plan,
    readonly heads: readonly Head[] | null,
    readonly firstColumn: number,
  ) {
    this.#now = plan;
  }

  /** Lays one row of texts over the line `id`, or over a new one for undefined. False where there can be no further row. */
  row(id: string | undefined, texts: readonly string[], number: number): boolean {
    const empty = texts.every((text) => text.trim() === "");
    if (id === undefined && empty) return true;
    const line = id ?? this.#newLine();
    if (line === null) return false;
    if (!empty) this.#touched.add(line);
    for (const [k, text] of texts.entries()) this.#text(line, k, text, id === undefined, number);
    return true;
  }

  outcome(): Outcome<Pasted, readonly string[]> {
    if (this.#faults.length > 0) {
      const more = this.#faults.length - MOST_FAULTS;
      return failed([...this.#faults.slice(0, MOST_FAULTS), ...(more > 0 ? [`and ${more} more.`] : [])]);
    }
    const now = this.#now;
    const keys = (Object.keys(now) as (keyof Plan)[]).filter((key) => now[key] !== this.plan[key]);
    const parts = Object.fromEntries(keys.map((key) => [key, now[key]]));
    return done({ parts, cells: this.#cells, added: this.#added, notes: this.#notes() });
  }

  /** The id of a line that the table adds; null, with the fault, where it has no more. */
  #newLine(): string | null {
    const fresh = this.table.rows?.add(this.#now) ?? "This table has no more rows.";
    if (typeof fresh === "string") {
      this.#faults.push(fresh);
      return null;
    }
    this.#now = { ...this.#now, ...fresh.change(this.#now) };
    this.#added += 1;
    return fresh.id;
  }

  #text(line: string, k: number, text: string, isNew: boolean, number: number): void {
    const head = this.heads?.[k];
    const column = this.heads ? (head?.column ?? null) : this.firstColumn + k;
    const label = this.table.columns[column ?? -1]?.label ?? "";
    const cell = column === null ? null : (this.table.line(this.#now, line)?.cells[column] ?? null);
    if (text.trim() === "") {
      const shown = cell?.fixed === null && cell.entry.editor !== "tick" ? cell.shown : "";
      if (isNew && shown !== "") count(this.#blanks, `${label} ${shown}`);
    } else if (!cell || cell.fixed !== null) {
      if (cell?.shown !== text.trim()) count(this.#leftOut, whyLeftOut(cell, head, label));
    } else this.#put(cell, head ? underHead(text, head) : text, text, number);
  }

  #put(cell: Cell, read: string, written: string, number: number): void {
    const value = readText(cell, read, this.#now);
    if (!value.ok) {
      this.#faults.push(`Row ${number}, ${cell.label}${quoted(written, value.error)}: ${value.error}`);
      return;
    }
    this.#now = { ...this.#now, ...cell.put(value.value)(this.#now) };
    this.#cells += 1;
  }

  #notes(): readonly string[] {
    const blanks = [...this.#blanks].map(([what, many]) => `${what} (${many})`).join(", ");
    return [
      ...[...this.#leftOut].map(([why, many]) => `Left out ${counted(many, "cell")} ${why}`),
      ...(blanks === "" ? [] : [`Blank, so as a new row has it: ${blanks}.`]),
      ...namesakes(this.table, this.#now, this.#touched),
    ];
  }
}

function count(into: Map<string, number>, what: string): void {
  into.set(what, (into.get(what) ?? 0) + 1);
}

/** Why a text goes nowhere: it is under a head of no column, past the last one, or does not apply. */
function whyLeftOut(cell: Cell | null, head: Head | undefined, label: string): string {
  if (cell) return `in ${label}: ${cell.fixed}`;
  return head ? `under “${head.text.trim()}”, which is no column here.` : "past the last column.";
}

/** Names that more than one row of the table has, among the rows that were pasted. */
function namesakes(table: Table, plan: Plan, touched: ReadonlySet<string>): readonly string[] {
  if (!table.rows) return [];
  const lines = table.lines(plan);
  const many = new Map<string, number>();
  for (const { name } of lines) many.set(name, (many.get(name) ?? 0) + 1);
  const pasted = new Set(lines.filter((line) => touched.has(line.id)).map((line) => line.name));
  return [...pasted]
    .filter((name) => many.get(name)! > 1)
    .map((name) => `${many.get(name)!} rows are called “${name}”.`);
}

/** The text that was read, unless the reason quotes it already. */
function quoted(text: string, reason: string): string {
  return reason.includes("“") ? "" : `, “${text.trim()}”`;
}

/** A text as people write it in a spreadsheet, as the cell's value: names for ids, x or yes for ticks. */
function readText(cell: Cell, text: string, plan: Plan): Outcome<unknown, string> {
  const draft = draftFrom(cell.entry, text.trim(), plan);
  return draft.ok ? cell.entry.read(draft.value, plan, cell.guide) : draft;
}

function draftFrom(entry: Entry, text: string, plan: Plan): Outcome<string, string> {
  switch (entry.editor) {
    case "tick":
      if (/^(yes|y|x|true|1)$/i.test(text)) return done("yes");
      return /^(no|n|false|0|-)$/i.test(text) ? done("") : failed("Write yes or no.");
    case "one":
      return chosen(entry, text, plan);
    case "some": {
      const ids: string[] = [];
      for (const part of partsOf(text, /[,;\n]/)) {
        const one = chosen(entry, part, plan);
        if (!one.ok) return one;
        ids.push(one.value);
      }
      return done(ids.join(" "));
    }
    default:
      return done(text);
  }
}

function chosen(entry: Entry, text: string, plan: Plan): Outcome<string, string> {
  const wanted = text.toLowerCase();
  const choices = entry.choices?.(plan) ?? [];
  const [found, other] = choices.filter(({ words }) => words.toLowerCase() === wanted);
  if (found && other) return failed(`Two are called “${text}”: give one of them another name first.`);
  const byId = found ?? choices.find(({ value }) => value.toLowerCase() === wanted);
  if (byId) return done(byId.value);
  const all = choices.map(({ words }) => words);
  const near = nearestWord(text, all);
  const instead =
    near !== null
      ? `; perhaps “${near}”`
      : all.length > 0 && all.length <= MOST_TOLD
        ? `; there is: ${all.join(", ")}`
        : "";
  return failed(`There is no “${text}” to choose${instead}.`);
}
