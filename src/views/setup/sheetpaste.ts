import type { Plan } from "../../plan/index.ts";
import { failed, done, type Outcome } from "../../kernel/index.ts";
import { type Entry, partsOf } from "./entry.ts";
import type { Cell, Table } from "./table.ts";

/** A block of texts as spreadsheets hand it over, and what it makes of a table. Pure. */

/** What a block would change. */
export interface Pasted {
  /** The branches of a plan with the block in it, to be asked of the plan it was read for. */
  readonly parts: Partial<Plan>;
  readonly cells: number;
  readonly added: number;
}

/** Most faults that are told of one block. */
const MOST_FAULTS = 5;

/**
 * Rows of texts from tab-separated text. A field in double quotes may hold tabs, line ends and, doubled, quotes. A line
 * end at the very end begins no row.
 */
export function rowsIn(text: string): readonly (readonly string[])[] {
  const rows: string[][] = [];
  let row: string[] = [];
  let field = "";
  let quoted = false;
  const endField = (): void => {
    row.push(field);
    field = "";
  };
  const endRow = (): void => {
    endField();
    rows.push(row);
    row = [];
  };
  for (let i = 0; i < text.length; i += 1) {
    const sign = text[i]!;
    if (quoted) {
      if (sign !== '"') field += sign;
      else if (text[i + 1] === '"') {
        field += sign;
        i += 1;
      } else quoted = false;
    } else if (sign === '"' && field === "") quoted = true;
    else if (sign === "\t") endField();
    else if (sign === "\n") endRow();
    else if (sign !== "\r") field += sign;
  }
  if (field !== "" || row.length > 0) endRow();
  return rows;
}

/** True for more than one cell. */
export function isBlock(rows: readonly (readonly string[])[]): boolean {
  return rows.length > 1 || (rows[0]?.length ?? 0) > 1;
}

/** Rows of texts as tab-separated text, quoted where a text needs it. */
export function textOf(rows: readonly (readonly string[])[]): string {
  const safe = (text: string): string => (/[\t\n"]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);
  return rows.map((row) => row.map(safe).join("\t")).join("\n");
}

/**
 * The block laid over the table from `line` and `column` on, in the order of `lines` (those that are shown). Rows past
 * the last line are added where the table allows it; empty texts and cells that do not apply are passed over. With any
 * fault nothing is to be pasted and the first of them are told.
 */
export function pastedOver(
  table: Table,
  plan: Plan,
  lines: readonly string[],
  from: { readonly row: number; readonly column: number },
  block: readonly (readonly string[])[],
): Outcome<Pasted, readonly string[]> {
  let now = plan;
  let cells = 0;
  let added = 0;
  const faults: string[] = [];
  for (const [i, texts] of block.entries()) {
    let id = lines[from.row + i];
    if (id === undefined) {
      const fresh = table.rows?.add(now) ?? "This table has no more rows.";
      if (typeof fresh === "string") {
        faults.push(fresh);
        break;
      }
      now = { ...now, ...fresh.change(now) };
      id = fresh.id;
      added += 1;
    }
    for (const [k, text] of texts.entries()) {
      const cell = table.line(now, id)?.cells[from.column + k];
      if (!cell || cell.fixed !== null || text.trim() === "") continue;
      const read = readText(cell, text, now);
      if (!read.ok) faults.push(`Row ${i + 1}, ${cell.label}: ${read.error}`);
      else {
        now = { ...now, ...cell.put(read.value)(now) };
        cells += 1;
      }
    }
  }
  if (faults.length > 0) {
    const more = faults.length - MOST_FAULTS;
    return failed([...faults.slice(0, MOST_FAULTS), ...(more > 0 ? [`and ${more} more.`] : [])]);
  }
  const keys = (Object.keys(now) as (keyof Plan)[]).filter((key) => now[key] !== plan[key]);
  return done({ parts: Object.fromEntries(keys.map((key) => [key, now[key]])), cells, added });
}

/** A text as people write it in a spreadsheet, as the cell's value: names for ids, x or yes for ticks. */
export function readText(cell: Cell, text: string, plan: Plan): Outcome<unknown, string> {
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
  const found =
    choices.find(({ words }) => words.toLowerCase() === wanted) ??
    choices.find(({ value }) => value.toLowerCase() === wanted);
  return found ? done(found.value) : failed(`There is no “${text}” to choose.`);
}
