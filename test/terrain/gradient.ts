import type { HeightGrid } from "../../src/terrain/grid.ts";

/** Reference for slopes: the gradient of the bilinear surface. Rise per metre to the east and to the north at a point; NaN where it is not known. */
export function gradientAt(grid: HeightGrid, eastM: number, northM: number): { east: number; north: number } {
  const { columns, rows, cellM, heightM } = grid;
  const x = (eastM - grid.westM) / cellM;
  const y = (northM - grid.southM) / cellM;
  if (!(x >= 0 && y >= 0 && x <= columns - 1 && y <= rows - 1)) return { east: NaN, north: NaN };
  const column = Math.min(columns - 2, Math.floor(x));
  const row = Math.min(rows - 2, Math.floor(y));
  const at = row * columns + column;
  const [sw, se] = [heightM[at]!, heightM[at + 1]!];
  const [nw, ne] = [heightM[at + columns]!, heightM[at + columns + 1]!];
  const u = x - column;
  const v = y - row;
  return {
    east: ((se - sw) * (1 - v) + (ne - nw) * v) / cellM,
    north: ((nw - sw) * (1 - u) + (ne - se) * u) / cellM,
  };
}
