import type { HeightGrid } from "./grid.ts";

/**
 * The cells of a grid that a straight line crosses, in order, each with the metres from the line's begin at which it is
 * entered and left. On one cell the bilinear surface under a straight line is a parabola: whoever looks at each
 * crossing misses nothing between the points.
 *
 * A line along the edge between two cells is told of one of them. The line ends at the grid's edge.
 */
export function crossCells(
  {
    columns,
    rows,
    cellM,
    westM,
    southM,
  }: Pick<HeightGrid, "columns" | "rows" | "cellM" | "westM" | "southM">,
  from: { readonly eastM: number; readonly northM: number },
  unitEast: number,
  unitNorth: number,
  lengthM: number,
  /** False ends the walk. */
  visit: (column: number, row: number, startM: number, endM: number) => boolean,
): void {
  const x = (from.eastM - westM) / cellM;
  const y = (from.northM - southM) / cellM;
  if (!(x >= 0 && y >= 0 && x <= columns - 1 && y <= rows - 1)) return;
  let column = firstCell(x, unitEast, columns);
  let row = firstCell(y, unitNorth, rows);
  const stepX = Math.sign(unitEast);
  const stepY = Math.sign(unitNorth);
  /** Metres to the next grid line from cell `k` on, counted anew each time so that nothing adds up. */
  const leaves = (at: number, unit: number, k: number): number =>
    unit === 0 ? Infinity : ((k + (unit > 0 ? 1 : 0) - at) * cellM) / unit;
  let startM = 0;
  while (column >= 0 && row >= 0 && column <= columns - 2 && row <= rows - 2) {
    const acrossM = leaves(x, unitEast, column);
    const alongM = leaves(y, unitNorth, row);
    const endM = Math.min(acrossM, alongM, lengthM);
    if (endM > startM && !visit(column, row, startM, endM)) return;
    if (endM >= lengthM) return;
    if (acrossM <= endM) column += stepX;
    if (alongM <= endM) row += stepY;
    startM = Math.max(startM, endM);
  }
}

/** The first cell on a line from `at` towards `unit`: the one behind a grid line when it goes back over it. */
function firstCell(at: number, unit: number, points: number): number {
  const cell = unit < 0 ? Math.ceil(at) - 1 : Math.floor(at);
  return unit === 0 ? Math.min(points - 2, cell) : cell;
}
