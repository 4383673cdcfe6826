import { Crossing } from "./crossing.ts";
import type { HeightGrid } from "./grid.ts";

/**
 * How steep the bilinear ground is at its steepest point on a straight piece: along it up and down, and across it.
 *
 * On one cell the slope along a straight line and the slope across it both change evenly, so that their extremes stand
 * where the line enters and leaves the cell: looked at there, the answer is that of every point of the piece. On the
 * edge between two cells the ground falls off to both sides differently, and both count.
 * Not covered: what is smaller than a cell.
 */
export interface Limits {
  /** Tangents of the steepest slopes allowed. */
  readonly tanUp: number;
  readonly tanDown: number;
  readonly tanAcross: number;
}

/** A line this near a grid line, in cells, runs on it. */
const ON_LINE = 1e-9;

/** True where no point of the straight piece is steeper than `limits`; false also where the ground is not known. */
export function isGentle(
  grid: HeightGrid,
  limits: Limits,
  fromEastM: number,
  fromNorthM: number,
  toEastM: number,
  toNorthM: number,
): boolean {
  const { columns, rows, cellM, westM, southM, heightM } = grid;
  const { tanUp, tanDown, tanAcross } = limits;
  const lengthM = Math.sqrt((toEastM - fromEastM) ** 2 + (toNorthM - fromNorthM) ** 2);
  if (lengthM === 0) return true;
  const unitEast = (toEastM - fromEastM) / lengthM;
  const unitNorth = (toNorthM - fromNorthM) / lengthM;
  const x = (fromEastM - westM) / cellM;
  const y = (fromNorthM - southM) / cellM;
  const line = new Crossing(grid, fromEastM, fromNorthM, unitEast, unitNorth, lengthM);
  while (line.next()) {
    const { column, row, startM, endM } = line;
    const u0 = x + (unitEast * startM) / cellM - column;
    const u1 = x + (unitEast * endM) / cellM - column;
    const v0 = y + (unitNorth * startM) / cellM - row;
    const v1 = y + (unitNorth * endM) / cellM - row;
    if (!holds(column, row, u0, v0, u1, v1)) return false;
    if (Math.max(u0, u1) < ON_LINE && column > 0 && !holds(column - 1, row, u0 + 1, v0, u1 + 1, v1))
      return false;
    if (
      Math.min(u0, u1) > 1 - ON_LINE &&
      column < columns - 2 &&
      !holds(column + 1, row, u0 - 1, v0, u1 - 1, v1)
    )
      return false;
    if (Math.max(v0, v1) < ON_LINE && row > 0 && !holds(column, row - 1, u0, v0 + 1, u1, v1 + 1))
      return false;
    if (Math.min(v0, v1) > 1 - ON_LINE && row < rows - 2 && !holds(column, row + 1, u0, v0 - 1, u1, v1 - 1))
      return false;
  }
  return true;

  function holds(column: number, row: number, u0: number, v0: number, u1: number, v1: number): boolean {
    const at = row * columns + column;
    const sw = heightM[at]!;
    const se = heightM[at + 1]!;
    const nw = heightM[at + columns]!;
    const ne = heightM[at + columns + 1]!;
    return within(sw, se, nw, ne, u0, v0) && within(sw, se, nw, ne, u1, v1);
  }

  function within(sw: number, se: number, nw: number, ne: number, u: number, v: number): boolean {
    const riseEast = ((se - sw) * (1 - v) + (ne - nw) * v) / cellM;
    const riseNorth = ((nw - sw) * (1 - u) + (ne - se) * u) / cellM;
    const rise = riseEast * unitEast + riseNorth * unitNorth;
    // Written so that an unknown height holds nothing.
    return (
      rise <= tanUp && -rise <= tanDown && Math.abs(riseEast * unitNorth - riseNorth * unitEast) <= tanAcross
    );
  }
}
