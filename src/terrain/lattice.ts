import { type Box, boxOf, type Footing } from "./footing.ts";
import { gradients } from "./grid.ts";
import { crosses, distanceToLine, inside, type Point, type Shape } from "./shapes.ts";

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

/** The net of `footing`. */
export function latticeOf(footing: Footing): Lattice {
  // Imported and exported constants are looked up at every use by some loaders: dear in these loops.
  const [each, scale, eastOf, northOf] = [HOPS, SCALE, EAST, NORTH];
  const { grid, tanUp, tanDown, tanAcross, step } = footing;
  const { columns, rows, cellM, heightM } = grid;
  const hops = new Int32Array(heightM.length * each).fill(CLOSED);
  const offset = Int32Array.from({ length: each }, (_, hop) => northOf[hop]! * columns + eastOf[hop]!);
  const slope = gradients(grid);
  const lengthM = eastOf.map((east, hop) => Math.hypot(east, northOf[hop]!) * cellM);
  let least = CLOSED;
  let greatest = 0;
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      const at = row * columns + column;
      const height = heightM[at]!;
      if (Number.isNaN(height)) continue;
      for (let hop = 0; hop < each; hop += 1) {
        const east = eastOf[hop]!;
        const north = northOf[hop]!;
        const toColumn = column + east;
        const toRow = row + north;
        if (toColumn < 0 || toRow < 0 || toColumn >= columns || toRow >= rows) continue;
        const to = at + offset[hop]!;
        const length = lengthM[hop]!;
        const riseEast = (slope.east[at]! + slope.east[to]!) / 2;
        const riseNorth = (slope.north[at]! + slope.north[to]!) / 2;
        if (!(Math.abs(riseEast * north - riseNorth * east) * cellM <= tanAcross * length)) continue;
        let cost: number;
        if ((hop & 1) === 0) {
          const rise = heightM[to]! - height;
          if (!(rise <= tanUp * length && -rise <= tanDown * length)) continue;
          cost = step(length, rise);
        } else {
          const half = length / 2;
          const near = at + (north === 1 || north === -1 ? east / 2 : north * columns * 0.5);
          const beside = near + (north === 1 || north === -1 ? north * columns : east);
          const middle = (heightM[near]! + heightM[beside]!) / 2;
          const first = middle - height;
          const second = heightM[to]! - middle;
          if (!(first <= tanUp * half && -first <= tanDown * half)) continue;
          if (!(second <= tanUp * half && -second <= tanDown * half)) continue;
          cost = step(half, first) + step(half, second);
        }
        const whole = Math.ceil(cost * scale);
        hops[at * each + hop] = whole;
        if (whole < least) least = whole;
        if (whole > greatest) greatest = whole;
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
