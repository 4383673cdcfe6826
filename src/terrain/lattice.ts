import { pulse } from "../kernel/index.ts";
import type { Footing } from "./footing.ts";
import { type Box, boxOf, crosses, distanceToLine, inside, type Point, type Shape } from "./shapes.ts";

/**
 * The grid as a net of sixteen hops from each point: to its eight neighbours and by the moves of a chess knight, so
 * that a path on it is at the worst 2.8 % longer than the straight line (Warntz 1957; value from memory), which
 * `trail.ts` then pulls straight. A knight's hop goes by its middle, halfway between two points.
 */
export interface Lattice {
  readonly footing: Footing;
  /** Entry `point * HOPS + hop`: thousandths of the footing's cost, rounded up; CLOSED where it may not be gone. */
  readonly hops: Int32Array;
  /** From a point to the end of each hop, in points. */
  readonly offset: Int32Array;
  /** Least and greatest cost of an open hop; both 1 where none is open. */
  readonly least: number;
  readonly greatest: number;
}

export const HOPS = 16;
export const CLOSED = 0x7fffffff;
/** Whole numbers of the lattice for one of the footing's cost. */
export const SCALE = 1000;

/** East and north of each hop in cells, anticlockwise, so that `hop + 8` goes back. */
export const EAST = [1, 2, 1, 1, 0, -1, -1, -2, -1, -2, -1, -1, 0, 1, 1, 2] as const;
export const NORTH = [0, 1, 1, 2, 1, 2, 1, 1, 0, -1, -1, -2, -1, -2, -1, -1] as const;

/**
 * What each hop of the half circle crosses, flat, two cells a hop, each with the point where it enters and leaves it:
 * column and row of the cell from the hop's begin, then u and v of both points in cells. A hop along a grid line has
 * its cells on either side, a diagonal one its cell twice. The other hops are these, gone back.
 */
const CROSSED = Float64Array.from(
  [
    [0, 0, 0, 0, 1, 0, 0, -1, 0, 1, 1, 1],
    [0, 0, 0, 0, 1, 0.5, 1, 0, 0, 0.5, 1, 1],
    [0, 0, 0, 0, 1, 1, 0, 0, 0, 0, 1, 1],
    [0, 0, 0, 0, 0.5, 1, 0, 1, 0.5, 0, 1, 1],
    [0, 0, 0, 0, 0, 1, -1, 0, 1, 0, 1, 1],
    [-1, 0, 1, 0, 0.5, 1, -1, 1, 0.5, 0, 0, 1],
    [-1, 0, 1, 0, 0, 1, -1, 0, 1, 0, 0, 1],
    [-1, 0, 1, 0, 0, 0.5, -2, 0, 1, 0.5, 0, 1],
  ].flat(),
);

/** The net of `footing`. */
export function latticeOf(footing: Footing): Lattice {
  // Imported and exported constants are looked up at every use by some loaders: dear in these loops.
  const [each, scale, eastOf, northOf, crossed] = [HOPS, SCALE, EAST, NORTH, CROSSED];
  const { grid, tanUp, tanDown, tanAcross, step } = footing;
  const { columns, rows, cellM, heightM } = grid;
  const half = each / 2;
  const hops = new Int32Array(heightM.length * each).fill(CLOSED);
  const offset = Int32Array.from({ length: each }, (_, hop) => northOf[hop]! * columns + eastOf[hop]!);
  const cells = eastOf.map((east, hop) => Math.hypot(east, northOf[hop]!));
  let least = CLOSED;
  let greatest = 0;
  const open = (at: number, hop: number, cost: number): void => {
    const whole = Math.ceil(cost * scale);
    hops[at * each + hop] = whole;
    if (whole < least) least = whole;
    if (whole > greatest) greatest = whole;
  };
  // The steepest rise and fall along the hop that was looked at last.
  let up = 0;
  let down = 0;
  for (let row = 0; row < rows; row += 1) {
    pulse();
    for (let column = 0; column < columns; column += 1) {
      const at = row * columns + column;
      const height = heightM[at]!;
      if (Number.isNaN(height)) continue;
      for (let hop = 0; hop < half; hop += 1) {
        const toColumn = column + eastOf[hop]!;
        const toRow = row + northOf[hop]!;
        if (toColumn < 0 || toRow < 0 || toColumn >= columns || toRow >= rows) continue;
        if (!isSurveyed(column, row, hop)) continue;
        const to = at + offset[hop]!;
        const isOpen = up <= tanUp && down <= tanDown;
        const isOpenBack = down <= tanUp && up <= tanDown;
        const lengthM = cells[hop]! * cellM;
        const rise = heightM[to]! - height;
        if ((hop & 1) === 0) {
          if (isOpen) open(at, hop, step(lengthM, rise));
          if (isOpenBack) open(to, hop + half, step(lengthM, -rise));
          continue;
        }
        const east = eastOf[hop]!;
        const north = northOf[hop]!;
        const near = at + (north === 1 ? east / 2 : columns);
        const beside = near + (north === 1 ? columns : east);
        const first = (heightM[near]! + heightM[beside]!) / 2 - height;
        const halfM = lengthM / 2;
        if (isOpen) open(at, hop, step(halfM, first) + step(halfM, rise - first));
        if (isOpenBack) open(to, hop + half, step(halfM, first - rise) + step(halfM, -first));
      }
    }
  }
  const lattice = {
    footing,
    hops,
    offset,
    least: greatest === 0 ? 1 : least,
    greatest: Math.max(1, greatest),
  };
  for (const shape of footing.terms.keepOuts) shut(lattice, shape);
  return lattice;

  /** Sets `up` and `down`; false where the ground is not known or somewhere too steep across. As incline.ts has it. */
  function isSurveyed(column: number, row: number, hop: number): boolean {
    const unitEast = eastOf[hop]! / (cells[hop]! * cellM);
    const unitNorth = northOf[hop]! / (cells[hop]! * cellM);
    up = 0;
    down = 0;
    for (let k = hop * 12; k < hop * 12 + 12; k += 6) {
      const c = column + crossed[k]!;
      const r = row + crossed[k + 1]!;
      if (c < 0 || r < 0 || c > columns - 2 || r > rows - 2) continue;
      const at = r * columns + c;
      const sw = heightM[at]!;
      const south = heightM[at + 1]! - sw;
      const west = heightM[at + columns]! - sw;
      // How much more it rises along the north side than along the south side, and so for east and west.
      const twist = heightM[at + columns + 1]! - heightM[at + 1]! - west;
      for (let end = k + 2; end < k + 6; end += 2) {
        const riseEast = south + twist * crossed[end + 1]!;
        const riseNorth = west + twist * crossed[end]!;
        if (!(Math.abs(riseEast * unitNorth - riseNorth * unitEast) <= tanAcross)) return false;
        const rise = riseEast * unitEast + riseNorth * unitNorth;
        if (rise > up) up = rise;
        if (-rise > down) down = -rise;
      }
    }
    return true;
  }
}

/** Closes every hop that enters `shape`. */
function shut({ footing, hops, offset }: Lattice, shape: Shape): void {
  const { columns, rows, cellM, westM, southM } = footing.grid;
  const reach = 2.3 * cellM;
  const box: Box = boxOf(shape);
  const first = (value: number): number => Math.max(0, Math.floor(value));
  const east = Math.min(columns - 1, Math.ceil((box.east + reach - westM) / cellM));
  const north = Math.min(rows - 1, Math.ceil((box.north + reach - southM) / cellM));
  for (let row = first((box.south - reach - southM) / cellM); row <= north; row += 1) {
    pulse();
    for (let column = first((box.west - reach - westM) / cellM); column <= east; column += 1) {
      const at = row * columns + column;
      const from = { eastM: westM + column * cellM, northM: southM + row * cellM };
      const isIn = inside(shape, from);
      if (!isIn && outlineAway(shape, from) > reach) continue;
      for (let hop = 0; hop < HOPS; hop += 1) {
        if (hops[at * HOPS + hop] === CLOSED && !isIn) continue;
        const to = {
          eastM: from.eastM + EAST[hop]! * cellM,
          northM: from.northM + NORTH[hop]! * cellM,
        };
        if (isIn) {
          hops[at * HOPS + hop] = CLOSED;
          const other = at + offset[hop]!;
          const toColumn = column + EAST[hop]!;
          const toRow = row + NORTH[hop]!;
          if (toColumn >= 0 && toColumn < columns && toRow >= 0 && toRow < rows)
            hops[other * HOPS + ((hop + 8) % HOPS)] = CLOSED;
        } else if (crosses(shape, from, to)) hops[at * HOPS + hop] = CLOSED;
      }
    }
  }
}

/** Distance in m from a point outside `shape` to its outline. */
function outlineAway(shape: Shape, point: Point): number {
  if (shape.type === "disc")
    return Math.hypot(point.eastM - shape.eastM, point.northM - shape.northM) - shape.radiusM;
  const { points } = shape;
  return points.reduce((least, corner, k) => {
    return Math.min(least, distanceToLine(point, corner, points[(k + 1) % points.length]!));
  }, Infinity);
}
