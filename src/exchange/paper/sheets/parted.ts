import { type Cell, type Column, EMPTY, type Row, type Table } from "./body.ts";
import { type Fit, fitTable } from "./fit.ts";

/** Where a table is wider than the paper and says by which columns its rows are known, it goes in parts: each has those columns again. */

/** A part is set no smaller: it is read on a wrist, or at a narrow desk. */
const LEAST_PT = 8;

interface Part {
  readonly columns: readonly number[];
  readonly part: Table;
  readonly fit: Fit;
}

/** The parts of a table, each as wide as the paper at most; null where nothing says how its rows are known, or a column alone is too wide. */
export function partedTable(table: Table, wideMm: number): readonly Part[] | null {
  const known = table.columns.flatMap(({ known = false }, i) => (known ? [i] : []));
  if (known.length === 0) return null;
  const parts: Part[] = [];
  for (const unit of unitsOf(table, known)) {
    // Into the first part that has room: few parts, each in the order of the table.
    let placed = false;
    for (const [k, { columns }] of parts.entries()) {
      const wider = fitted(table, known, [...columns, ...unit], wideMm);
      if (!wider) continue;
      parts[k] = wider;
      placed = true;
      break;
    }
    if (placed) continue;
    const alone = fitted(table, known, unit, wideMm);
    if (!alone) return null;
    parts.push(alone);
  }
  // What the rows are about comes first.
  const tells = ({ part }: Part): boolean => part.columns.some(({ grow }) => grow !== undefined);
  return [...parts.filter(tells), ...parts.filter((one) => !tells(one))];
}

function fitted(
  table: Table,
  known: readonly number[],
  columns: readonly number[],
  wideMm: number,
): Part | null {
  const part = partOf(table, known, columns);
  const fit = fitTable(part, wideMm);
  return fit && fit.sizePt >= LEAST_PT ? { columns, part, fit } : null;
}

/** Columns that stay together: those under one head, those of text beside each other, and those that a cell stands across. */
function unitsOf({ columns, rows }: Table, known: readonly number[]): number[][] {
  const joined = new Set<number>();
  for (const { cells } of rows) {
    let at = 0;
    for (const { span = 1 } of cells) {
      for (let k = at + 1; k < at + span; k += 1) joined.add(k);
      at += span;
    }
  }
  const units: number[][] = [];
  columns.forEach(({ group, grow }, i) => {
    if (known.includes(i)) return;
    const last = units.at(-1);
    const before = columns[i - 1];
    const together =
      joined.has(i) ||
      (group !== undefined && group === before?.group) ||
      (grow !== undefined && before?.grow !== undefined);
    if (last && last.at(-1) === i - 1 && together) last.push(i);
    else units.push([i]);
  });
  return units;
}

function partOf(table: Table, known: readonly number[], columns: readonly number[]): Table {
  const all = [...known, ...columns].toSorted((a, b) => a - b);
  const named = columns.flatMap((i) => nameOf(table.columns[i]));
  const title = [table.title, [...new Set(named)].join(", ")].filter((words) => words !== undefined);
  return {
    // Set as large as it goes: rows are few on such a page anyway.
    kind: "table",
    none: table.none,
    title: title.join(": "),
    columns: all.flatMap((i) => table.columns[i] ?? []),
    rows: table.rows.map((row): Row => ({ ...row, cells: cellsOf(row, all) })),
  };
}

function nameOf(column: Column | undefined): string[] {
  const words = column?.group ?? column?.head ?? "";
  return words === "" ? [] : [words];
}

/** The cells of a row that begin in one of the columns. */
function cellsOf({ cells }: Row, columns: readonly number[]): Cell[] {
  const begins = new Map<number, Cell | null>();
  let at = 0;
  for (const cell of cells) {
    begins.set(at, cell);
    for (let k = at + 1; k < at + (cell.span ?? 1); k += 1) begins.set(k, null);
    at += cell.span ?? 1;
  }
  return columns.flatMap((i) => {
    const cell = begins.get(i);
    return cell === null ? [] : [cell ?? EMPTY];
  });
}
