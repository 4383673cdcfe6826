import type { HeightGrid } from "./grid.ts";
import type { Box } from "./shapes.ts";

/**
 * Cells of a height grid that are nowhere too steep, whichever way they are walked, and that no keep-out comes near, so that most straight
 * pieces need no closer look.
 *
 * On a bilinear cell the rise to the east changes with the north alone and the other way round: it is nowhere steeper than the steepest
 * of its two sides each way together. Counted so that the other cells of any rectangle are four look-ups away (Crow 1984, Comput Graph
 * 18:207-212). Not covered: whether a piece over other cells is open; that is `incline.ts` and `shapes.ts`.
 */
export interface Gentle {
  /** True where all cells from one to the other, both included, are such; cells beyond the grid do not count. */
  hasCells(fromColumn: number, fromRow: number, toColumn: number, toRow: number): boolean;
  /** True where the straight piece, in cells from the grid's first point, and all that is beside it lies on such cells. */
  hasLine(fromX: number, fromY: number, toX: number, toY: number): boolean;
}

/** So much below the limit that rounding does not matter. */
const HAIR = 1e-6;
/** A line this near a cell, in cells, touches it. */
const NEAR = 1e-6;
/** A piece of a line is not halved where it is shorter than so many cells. */
const PIECE = 1;

/** The cells of `grid` that are nowhere as steep as the tangent `tan`, and outside of all `boxes`. */
export function gentleCells(grid: HeightGrid, tan: number, boxes: readonly Box[]): Gentle {
  const counts = new OtherCells(grid, tan, boxes);
  return {
    hasCells: (fromColumn, fromRow, toColumn, toRow) => counts.isFree(fromColumn, fromRow, toColumn, toRow),
    hasLine: (fromX, fromY, toX, toY) => counts.isFreeAlong(fromX, fromY, toX, toY),
  };
}

/** Entry `row * columns + column`: the cells that are not gentle, south of the row and west of the column. */
class OtherCells {
  private readonly columns: number;
  private readonly rows: number;
  private readonly counts: Int32Array;

  constructor(grid: HeightGrid, tan: number, boxes: readonly Box[]) {
    const { columns, rows, cellM, heightM } = grid;
    const isShut = new Uint8Array(heightM.length);
    for (const box of boxes) shut(isShut, grid, box);
    this.columns = columns;
    this.rows = rows;
    this.counts = new Int32Array(columns * rows);
    const { counts } = this;
    const most = (tan * cellM * (1 - HAIR)) ** 2;
    for (let row = 0; row + 1 < rows; row += 1) {
      let before = 0;
      for (let at = row * columns; at < row * columns + columns - 1; at += 1) {
        const sw = heightM[at]!;
        const se = heightM[at + 1]!;
        const nw = heightM[at + columns]!;
        const ne = heightM[at + columns + 1]!;
        const east = Math.max(Math.abs(se - sw), Math.abs(ne - nw));
        const north = Math.max(Math.abs(nw - sw), Math.abs(ne - se));
        // Written so that an unknown height is steep.
        if (isShut[at] === 1 || !(east * east + north * north <= most)) before += 1;
        counts[at + columns + 1] = counts[at + 1]! + before;
      }
    }
  }

  /** Of a line, looked at as a whole and, where that will not do, half by half. */
  isFreeAlong(fromX: number, fromY: number, toX: number, toY: number): boolean {
    const west = fromX < toX ? fromX : toX;
    const east = fromX < toX ? toX : fromX;
    const south = fromY < toY ? fromY : toY;
    const north = fromY < toY ? toY : fromY;
    const isFree = this.isFree(
      Math.floor(west - NEAR),
      Math.floor(south - NEAR),
      Math.floor(east + NEAR),
      Math.floor(north + NEAR),
    );
    if (isFree || (east - west < PIECE && north - south < PIECE)) return isFree;
    const middleX = (fromX + toX) / 2;
    const middleY = (fromY + toY) / 2;
    return this.isFreeAlong(fromX, fromY, middleX, middleY) && this.isFreeAlong(middleX, middleY, toX, toY);
  }

  isFree(fromColumn: number, fromRow: number, toColumn: number, toRow: number): boolean {
    const { columns, counts } = this;
    const west = fromColumn > 0 ? fromColumn : 0;
    const south = (fromRow > 0 ? fromRow : 0) * columns;
    const east = toColumn + 1 < columns ? toColumn + 1 : columns - 1;
    const north = (toRow + 1 < this.rows ? toRow + 1 : this.rows - 1) * columns;
    if (east <= west || north <= south) return true;
    return (
      counts[north + east]! - counts[north + west]! - counts[south + east]! + counts[south + west]! === 0
    );
  }
}

/** Marks the cells that a box touches. */
function shut(isShut: Uint8Array, { columns, rows, cellM, westM, southM }: HeightGrid, box: Box): void {
  const west = Math.max(0, Math.floor((box.west - westM) / cellM - NEAR));
  const east = Math.min(columns - 2, Math.floor((box.east - westM) / cellM + NEAR));
  const south = Math.max(0, Math.floor((box.south - southM) / cellM - NEAR));
  const north = Math.min(rows - 2, Math.floor((box.north - southM) / cellM + NEAR));
  for (let row = south; row <= north && west <= east; row += 1)
    isShut.fill(1, row * columns + west, row * columns + east + 1);
}
