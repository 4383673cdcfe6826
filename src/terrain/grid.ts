/**
 * A grid of heights, and what it says between its points.
 *
 * Heights between points are bilinear; the gradient is that of the same surface. Coordinates are east and north metres
 * from the lander. Range: anywhere on the grid. Not covered: what is smaller than a cell, overhangs; beyond the grid
 * and beside a point of unknown height nothing is known (NaN).
 */
export interface HeightGrid {
  /** Says the same for the same content: caches go by it. */
  readonly key: string;
  readonly columns: number;
  readonly rows: number;
  readonly cellM: number;
  /** Coordinates of the south-west point. */
  readonly westM: number;
  readonly southM: number;
  /** Row by row from the south, west to east, m; NaN where unknown. */
  readonly heightM: Float64Array;
}

/** Height in m at a point; NaN where it is not known. */
export function heightAt(grid: HeightGrid, eastM: number, northM: number): number {
  const { columns, rows, heightM } = grid;
  const x = (eastM - grid.westM) / grid.cellM;
  const y = (northM - grid.southM) / grid.cellM;
  if (!(x >= 0 && y >= 0 && x <= columns - 1 && y <= rows - 1)) return NaN;
  const column = Math.min(columns - 2, Math.floor(x));
  const row = Math.min(rows - 2, Math.floor(y));
  const at = row * columns + column;
  const u = x - column;
  const v = y - row;
  const south = mixed(heightM[at]!, heightM[at + 1]!, u);
  const north = mixed(heightM[at + columns]!, heightM[at + columns + 1]!, u);
  return mixed(south, north, v);
}

/** An unknown neighbour does not matter where it has no weight. */
function mixed(a: number, b: number, share: number): number {
  return share === 0 ? a : share === 1 ? b : a + (b - a) * share;
}

/** Gradient at every point by central differences, one-sided at the edges; NaN where a neighbour is unknown. */
export function gradients(grid: HeightGrid): { east: Float64Array; north: Float64Array } {
  const { columns, rows, cellM, heightM } = grid;
  const east = new Float64Array(heightM.length);
  const north = new Float64Array(heightM.length);
  for (let row = 0; row < rows; row += 1) {
    const up = row === rows - 1 ? 0 : columns;
    const down = row === 0 ? 0 : columns;
    for (let column = 0; column < columns; column += 1) {
      const at = row * columns + column;
      const right = column === columns - 1 ? 0 : 1;
      const left = column === 0 ? 0 : 1;
      east[at] = (heightM[at + right]! - heightM[at - left]!) / (cellM * (right + left));
      north[at] = (heightM[at + up]! - heightM[at - down]!) / ((cellM * (up + down)) / columns);
    }
  }
  return { east, north };
}
