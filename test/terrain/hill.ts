import type { Terms } from "../../src/terrain/footing.ts";
import type { HeightGrid } from "../../src/terrain/grid.ts";

/** Height grids by formula, and terms to walk them on. */

let made = 0;

/** `columns` by `rows` points, `cellM` apart, the south-west one at (westM, southM); heights by `heightOf`. */
export function hill(
  size: { columns: number; rows: number; cellM: number; westM?: number; southM?: number },
  heightOf: (eastM: number, northM: number) => number,
): HeightGrid {
  const { columns, rows, cellM, westM = 0, southM = 0 } = size;
  made += 1;
  return {
    key: `test ${made}`,
    columns,
    rows,
    cellM,
    westM,
    southM,
    heightM: Float64Array.from({ length: columns * rows }, (_, at) =>
      heightOf(westM + (at % columns) * cellM, southM + Math.floor(at / columns) * cellM),
    ),
  };
}

export const terms: Terms = {
  detour: 1,
  upDeg: 45,
  downDeg: 45,
  acrossDeg: 45,
  effort: null,
  keepOuts: [],
};
