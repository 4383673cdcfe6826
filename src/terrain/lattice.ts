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
  const net = new Net(footing);
  net.openAll();
  const { hops, offset, least, greatest } = net;
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

/** The hops of a lattice while they are opened. */
class Net {
  readonly hops: Int32Array;
  readonly offset: Int32Array;
  least = CLOSED;
  greatest = 0;
  // Imported and exported constants are looked up at every use by some loaders: dear in these loops.
  private readonly each = HOPS;
  private readonly scale = SCALE;
  private readonly eastOf = EAST;
  private readonly northOf = NORTH;
  private readonly crossed = CROSSED;
  private readonly footing: Footing;
  /** Length of each hop in cells. */
  private readonly cells: readonly number[];
  // The steepest rise and fall along the hop that was looked at last.
  private up = 0;
  private down = 0;

  constructor(footing: Footing) {
    const { columns, heightM } = footing.grid;
    this.footing = footing;
    this.hops = new Int32Array(heightM.length * HOPS).fill(CLOSED);
    this.offset = Int32Array.from({ length: HOPS }, (_, hop) => NORTH[hop]! * columns + EAST[hop]!);
    this.cells = EAST.map((east, hop) => Math.hypot(east, NORTH[hop]!));
  }

  openAll(): void {
    const { columns, rows, heightM } = this.footing.grid;
    for (let row = 0; row < rows; row += 1) {
      pulse();
      for (let column = 0; column < columns; column += 1)
        if (!Number.isNaN(heightM[row * columns + column]!)) this.openFrom(column, row);
    }
  }

  /** The hops of the half circle from a point, there and back. */
  private openFrom(column: number, row: number): void {
    const { eastOf, northOf } = this;
    const { columns, rows } = this.footing.grid;
    const half = this.each / 2;
    for (let hop = 0; hop < half; hop += 1) {
      const toColumn = column + eastOf[hop]!;
      const toRow = row + northOf[hop]!;
      if (toColumn < 0 || toRow < 0 || toColumn >= columns || toRow >= rows) continue;
      if (this.isSurveyed(column, row, hop)) this.openHop(row * columns + column, hop);
    }
  }

  /** A hop that was looked at, and its way back, as far as they are not too steep. */
  private openHop(at: number, hop: number): void {
    const { up, down, each } = this;
    const { grid, tanUp, tanDown, step } = this.footing;
    const { columns, cellM, heightM } = grid;
    const isOpen = up <= tanUp && down <= tanDown;
    const isOpenBack = down <= tanUp && up <= tanDown;
    const to = at + this.offset[hop]!;
    const back = hop + each / 2;
    const lengthM = this.cells[hop]! * cellM;
    const height = heightM[at]!;
    const rise = heightM[to]! - height;
    if ((hop & 1) === 0) {
      if (isOpen) this.open(at, hop, step(lengthM, rise));
      if (isOpenBack) this.open(to, back, step(lengthM, -rise));
      return;
    }
    // A knight's hop leaves the first cell in the middle of an edge.
    const east = this.eastOf[hop]!;
    const north = this.northOf[hop]!;
    const near = at + (north === 1 ? east / 2 : columns);
    const beside = near + (north === 1 ? columns : east);
    const first = (heightM[near]! + heightM[beside]!) / 2 - height;
    const halfM = lengthM / 2;
    if (isOpen) this.open(at, hop, step(halfM, first) + step(halfM, rise - first));
    if (isOpenBack) this.open(to, back, step(halfM, first - rise) + step(halfM, -first));
  }

  private open(at: number, hop: number, cost: number): void {
    const whole = Math.ceil(cost * this.scale);
    this.hops[at * this.each + hop] = whole;
    if (whole < this.least) this.least = whole;
    if (whole > this.greatest) this.greatest = whole;
  }

  /** Sets `up` and `down`; false where the ground is not known or somewhere too steep across. As incline.ts has it. */
  private isSurveyed(column: number, row: number, hop: number): boolean {
    const { crossed } = this;
    const { columns, rows, cellM } = this.footing.grid;
    const unitEast = this.eastOf[hop]! / (this.cells[hop]! * cellM);
    const unitNorth = this.northOf[hop]! / (this.cells[hop]! * cellM);
    this.up = 0;
    this.down = 0;
    for (let k = hop * 12; k < hop * 12 + 12; k += 6) {
      const c = column + crossed[k]!;
      const r = row + crossed[k + 1]!;
      if (c < 0 || r < 0 || c > columns - 2 || r > rows - 2) continue;
      if (!this.isCellSurveyed(r * columns + c, k, unitEast, unitNorth)) return false;
    }
    return true;
  }

  /** The same for the piece in one of the two cells that a hop crosses, whose points stand at `k` and on. */
  private isCellSurveyed(at: number, k: number, unitEast: number, unitNorth: number): boolean {
    const { crossed } = this;
    const { grid, tanAcross } = this.footing;
    const { columns, heightM } = grid;
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
      if (rise > this.up) this.up = rise;
      if (-rise > this.down) this.down = -rise;
    }
    return true;
  }
}

/** Closes every hop that enters `shape`. */
function shut(lattice: Lattice, shape: Shape): void {
  const { columns, rows, cellM, westM, southM } = lattice.footing.grid;
  const reach = 2.3 * cellM;
  const box: Box = boxOf(shape);
  const first = (value: number): number => Math.max(0, Math.floor(value));
  const east = Math.min(columns - 1, Math.ceil((box.east + reach - westM) / cellM));
  const north = Math.min(rows - 1, Math.ceil((box.north + reach - southM) / cellM));
  for (let row = first((box.south - reach - southM) / cellM); row <= north; row += 1) {
    pulse();
    for (let column = first((box.west - reach - westM) / cellM); column <= east; column += 1) {
      const from = { eastM: westM + column * cellM, northM: southM + row * cellM };
      if (inside(shape, from)) shutPoint(lattice, column, row);
      else if (outlineAway(shape, from) <= reach) shutHops(lattice, shape, row * columns + column, from);
    }
  }
}

/** Closes every hop from a point and to it. */
function shutPoint({ footing, hops, offset }: Lattice, column: number, row: number): void {
  const { columns, rows } = footing.grid;
  const at = row * columns + column;
  for (let hop = 0; hop < HOPS; hop += 1) {
    hops[at * HOPS + hop] = CLOSED;
    const toColumn = column + EAST[hop]!;
    const toRow = row + NORTH[hop]!;
    if (toColumn >= 0 && toColumn < columns && toRow >= 0 && toRow < rows)
      hops[(at + offset[hop]!) * HOPS + ((hop + 8) % HOPS)] = CLOSED;
  }
}

/** Closes the hops from a point outside `shape` that cross it. */
function shutHops({ footing, hops }: Lattice, shape: Shape, at: number, from: Point): void {
  const { cellM } = footing.grid;
  for (let hop = 0; hop < HOPS; hop += 1) {
    if (hops[at * HOPS + hop] === CLOSED) continue;
    const to = { eastM: from.eastM + EAST[hop]! * cellM, northM: from.northM + NORTH[hop]! * cellM };
    if (crosses(shape, from, to)) hops[at * HOPS + hop] = CLOSED;
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
