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
    const east = sideOf(u0, u1);
    const north = sideOf(v0, v1);
    if (east !== 0 && !holds(column + east, row, u0 - east, v0, u1 - east, v1)) return false;
    if (north !== 0 && !holds(column, row + north, u0, v0 - north, u1, v1 - north)) return false;
  }
  return true;

  /** True also of a cell beyond the grid. */
  function holds(column: number, row: number, u0: number, v0: number, u1: number, v1: number): boolean {
    if (column < 0 || row < 0 || column > columns - 2 || row > rows - 2) return true;
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

/** On which side of its cell a piece from `one` to `other` runs along the edge, and so in the next cell too; 0 on neither. */
function sideOf(one: number, other: number): -1 | 0 | 1 {
  if (Math.max(one, other) < ON_LINE) return -1;
  return Math.min(one, other) > 1 - ON_LINE ? 1 : 0;
}
