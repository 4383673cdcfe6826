import type { Cell, Line } from "../fields/table.ts";
import type { Place } from "./gridhands.ts";
import type { CellRef, Extent } from "./gridmoves.ts";

/** The keyboard's place among the lines that are shown, and what lies there. Pure. */

/** Rows that a page key passes. */
const PAGE_ROWS = 10;

export interface PlaceInGrid {
  /** The row of the place; -1 when it is on none of the lines. */
  readonly row: number;
  readonly cellRef: CellRef | null;
  /** What lies there; null also where a line has no cell. */
  readonly cell: Cell | null;
  readonly extent: Extent;
}

/** Where `place` lies among these lines. */
export function placeInGrid(lines: readonly Line[], columns: number, place: Place | null): PlaceInGrid {
  const row = place ? lines.findIndex((line) => line.id === place.line) : -1;
  const cellRef = place && row >= 0 ? { row, column: place.column } : null;
  const extent: Extent = {
    rows: lines.length,
    columns,
    pageRows: PAGE_ROWS,
    has: (one) => cellAt(lines, one) !== null,
  };
  return { row, cellRef, cell: cellRef && cellAt(lines, cellRef), extent };
}

export function cellAt(lines: readonly Line[], cellRef: CellRef): Cell | null {
  return lines[cellRef.row]?.cells[cellRef.column] ?? null;
}

/** The one cell that the keyboard comes to from outside: where it stood, else the first there is. */
export function homeOf(lines: readonly Line[], place: Place | null, { cell }: PlaceInGrid): Place | null {
  if (cell) return place;
  const first = lines[0];
  return first ? { line: first.id, column: firstColumn(first) } : null;
}

function firstColumn(line: Line): number {
  return Math.max(
    0,
    line.cells.findIndex((cell) => cell !== null),
  );
}
