/** Where the keyboard stands in a grid, and where a key takes it. Pure. */

export interface CellRef {
  readonly row: number;
  readonly column: number;
}

export interface Extent {
  readonly rows: number;
  readonly columns: number;
  /** Rows that fit on a screen. */
  readonly pageRows: number;
  /** False where a line has no cell. */
  readonly has: (cellRef: CellRef) => boolean;
}

/** Where the key leads, or null when it is no key of movement. It never leaves the grid and never lands on nothing. */
export function moved(from: CellRef, key: string, ctrl: boolean, extent: Extent): CellRef | null {
  const { rows, columns, pageRows } = extent;
  const last = { row: rows - 1, column: columns - 1 };
  const leaps: Readonly<Record<string, CellRef | undefined>> = {
    Home: { row: ctrl ? 0 : from.row, column: 0 },
    End: { row: ctrl ? last.row : from.row, column: last.column },
    PageUp: { row: Math.max(0, from.row - pageRows), column: from.column },
    PageDown: { row: Math.min(last.row, from.row + pageRows), column: from.column },
  };
  const leap = leaps[key];
  if (leap) return landed(leap, -1, extent) ?? from;
  const step = STEPS[key];
  if (!step) return null;
  let next = from;
  do {
    next = { row: next.row + step.row, column: next.column + step.column };
    if (next.row < 0 || next.row > last.row || next.column < 0 || next.column > last.column) return from;
  } while (!extent.has(next));
  return next;
}

/** The next cell in reading order (the one before with `back`); null after the last. */
export function onward(from: CellRef, back: boolean, extent: Extent): CellRef | null {
  const step = back ? -1 : 1;
  const count = extent.rows * extent.columns;
  let place = from.row * extent.columns + from.column + step;
  while (place >= 0 && place < count) {
    const cellRef = { row: Math.floor(place / extent.columns), column: place % extent.columns };
    if (extent.has(cellRef)) return cellRef;
    place += step;
  }
  return null;
}

const STEPS: Readonly<Record<string, CellRef | undefined>> = {
  ArrowUp: { row: -1, column: 0 },
  ArrowDown: { row: 1, column: 0 },
  ArrowLeft: { row: 0, column: -1 },
  ArrowRight: { row: 0, column: 1 },
};

/** The cell, or the nearest with a cell towards `step` in its row. */
function landed(cellRef: CellRef, step: number, extent: Extent): CellRef | null {
  for (let column = cellRef.column; column >= 0 && column < extent.columns; column += step) {
    if (extent.has({ row: cellRef.row, column })) return { row: cellRef.row, column };
  }
  return null;
}
