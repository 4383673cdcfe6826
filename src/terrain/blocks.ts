import type { HeightGrid } from "./grid.ts";

/** Blocks of cells with the highest point of each, so that a long line may pass over what lies under it. */
export interface Blocks {
  /** The blocks as a grid of their own: cells of it are blocks. */
  readonly net: Pick<HeightGrid, "columns" | "rows" | "cellM" | "westM" | "southM">;
  /** Highest point by block, row by row from the south, edges included, m; NaN where one of its heights is unknown. */
  readonly topM: Float64Array;
}

/** Cells along the side of a block. */
const SIDE = 16;

const known = new WeakMap<HeightGrid, Blocks>();

/** The blocks of `grid`, worked out once. */
export function blocksOf(grid: HeightGrid): Blocks {
  let blocks = known.get(grid);
  if (!blocks) known.set(grid, (blocks = counted(grid)));
  return blocks;
}

function counted({ columns, rows, cellM, westM, southM, heightM }: HeightGrid): Blocks {
  const wide = Math.ceil((columns - 1) / SIDE);
  const high = Math.ceil((rows - 1) / SIDE);
  const topM = new Float64Array(wide * high);
  for (let row = 0; row < high; row += 1) {
    for (let column = 0; column < wide; column += 1) {
      let top = -Infinity;
      for (let r = row * SIDE; r <= Math.min(rows - 1, (row + 1) * SIDE); r += 1)
        for (let c = column * SIDE; c <= Math.min(columns - 1, (column + 1) * SIDE); c += 1)
          // Math.max keeps what is not a number.
          top = Math.max(top, heightM[r * columns + c]!);
      topM[row * wide + column] = top;
    }
  }
  return { net: { columns: wide + 1, rows: high + 1, cellM: SIDE * cellM, westM, southM }, topM };
}
