import type { Footing } from "./footing.ts";
import { type Box, boxOf, crosses, distanceToLine, inside, type Point, type Shape } from "./shapes.ts";

/**
 * The grid as a net of sixteen hops from each point: to its eight neighbours and by the moves of a chess knight, so
 * that a path on it is at the worst 2.8 % longer than the straight line (Warntz 1957; value from memory), which
 * `trail.ts` then pulls straight. A knight's hop goes by its middle, halfway between two points. What the hops of a point
 * cost is worked out when somebody comes there: ways go over a part of the ground.
 */
export interface Lattice extends LatticeDump {
  readonly footing: Footing;
  /** From a point to the end of each hop, in points. */
  readonly offset: Int32Array;
  /** Works out all hops from a point. */
  workOut(at: number): void;
  /** What a hop from a point costs, thousandths; CLOSED where it may not be gone. */
  price(at: number, hop: number): number;
}

/** What is known of the hops, as data that can be sent. */
export interface LatticeDump {
  /**
   * Entry `point * HOPS + hop`, true of points that are worked out: thousandths of the footing's cost, rounded up; CLOSED where it may
   * not be gone.
   */
  readonly hops: Int32Array;
  /** 1 for points whose hops are worked out. */
  readonly worked: Uint8Array;
  /** Least cost of an open hop, keep-outs or not; 1 where none is open. */
  readonly least: number;
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

/** The hops of the half circle; the others lead back. */
const HALF = [0, 1, 2, 3, 4, 5, 6, 7] as const;

/** What is so much farther away than a hop is long, in cells, it does not come to. */
const HAIR = 1e-6;

/** Hops that cross a keep-out begin no more cells than this away from it. */
const SHUT_CELLS = 2.3;

/** The net of `footing`, of which `known` was worked out elsewhere. */
export function latticeOf(footing: Footing, known?: LatticeDump): Lattice {
  return new Net(footing, known);
}

class Net implements Lattice {
  readonly footing: Footing;
  readonly hops: Int32Array;
  readonly worked: Uint8Array;
  readonly offset: Int32Array;
  readonly least: number;
  // Imported and exported constants are looked up at every use by some loaders: dear in these loops.
  private readonly each = HOPS;
  private readonly closed = CLOSED;
  private readonly scale = SCALE;
  private readonly eastOf = EAST;
  private readonly northOf = NORTH;
  private readonly crossed = CROSSED;
  /** Length of each hop in cells. */
  private readonly cells: readonly number[];
  private readonly step: Footing["step"];
  /** Of the keep-outs. */
  private readonly boxes: readonly Box[];
  // The steepest rise and fall along the hop that was looked at last.
  private up = 0;
  private down = 0;

  constructor(footing: Footing, known?: LatticeDump) {
    const { columns, heightM } = footing.grid;
    this.footing = footing;
    this.step = footing.step;
    this.boxes = footing.terms.keepOuts.map(boxOf);
    this.offset = Int32Array.from({ length: HOPS }, (_, hop) => NORTH[hop]! * columns + EAST[hop]!);
    this.cells = EAST.map((east, hop) => Math.hypot(east, NORTH[hop]!));
    this.hops = known?.hops ?? new Int32Array(heightM.length * HOPS);
    this.worked = known?.worked ?? new Uint8Array(heightM.length);
    this.least = known?.least ?? this.leastHop();
  }

  workOut(at: number): void {
    const { each, closed, eastOf, northOf, hops } = this;
    const { columns, rows } = this.footing.grid;
    const row = (at / columns) | 0;
    const column = at - row * columns;
    const half = each / 2;
    const isGentle = this.footing.gentle.hasCells(column - 2, row - 2, column + 1, row + 1);
    for (let hop = 0; hop < each; hop += 1) {
      if (hops[at * each + hop] !== 0) continue;
      const toColumn = column + eastOf[hop]!;
      const toRow = row + northOf[hop]!;
      if (toColumn < 0 || toRow < 0 || toColumn >= columns || toRow >= rows) hops[at * each + hop] = closed;
      else if (hop < half) this.openBoth(column, row, hop, isGentle);
      else this.openBoth(toColumn, toRow, hop - half, isGentle);
    }
    this.worked[at] = 1;
    if (!isGentle) this.shutFrom(at, column, row);
  }

  price(at: number, hop: number): number {
    if (this.worked[at] === 0) this.workOut(at);
    return this.hops[at * this.each + hop]!;
  }

  /** A hop of the half circle and its way back, as far as they are not too steep: sure where the ground is gentle. */
  private openBoth(column: number, row: number, hop: number, isGentle: boolean): void {
    const { each, closed, hops, scale } = this;
    const { grid, tanUp, tanDown } = this.footing;
    const at = row * grid.columns + column;
    const there = at * each + hop;
    const back = (at + this.offset[hop]!) * each + hop + each / 2;
    hops[there] = closed;
    hops[back] = closed;
    this.up = 0;
    this.down = 0;
    if (!isGentle && (Number.isNaN(grid.heightM[at]!) || !this.isSurveyed(column, row, hop))) return;
    const { up, down } = this;
    const isOpen = up <= tanUp && down <= tanDown;
    const isOpenBack = down <= tanUp && up <= tanDown;
    if ((hop & 1) === 0) {
      const lengthM = this.cells[hop]! * grid.cellM;
      const rise = grid.heightM[at + this.offset[hop]!]! - grid.heightM[at]!;
      if (isOpen) hops[there] = Math.ceil(this.step(lengthM, rise) * scale);
      if (isOpenBack) hops[back] = Math.ceil(this.step(lengthM, -rise) * scale);
      return;
    }
    // A knight's hop leaves the first cell in the middle of an edge.
    const { columns, cellM, heightM } = grid;
    const east = this.eastOf[hop]!;
    const north = this.northOf[hop]!;
    const near = at + (north === 1 ? east / 2 : columns);
    const beside = near + (north === 1 ? columns : east);
    const height = heightM[at]!;
    const rise = heightM[at + this.offset[hop]!]! - height;
    const first = (heightM[near]! + heightM[beside]!) / 2 - height;
    const halfM = (this.cells[hop]! * cellM) / 2;
    if (isOpen) hops[there] = Math.ceil((this.step(halfM, first) + this.step(halfM, rise - first)) * scale);
    if (isOpenBack)
      hops[back] = Math.ceil((this.step(halfM, first - rise) + this.step(halfM, -first)) * scale);
  }

  /**
   * The least cost of an open hop. To the neighbours no hop is dearer than as long a one elsewhere, and none is cheaper than the level
   * one: it is looked for there, and among all only where those are too steep.
   */
  private leastHop(): number {
    const { perM, grid } = this.footing;
    const level = Math.ceil(this.step(grid.cellM, 0) * this.scale);
    const near = this.leastOf([0, 4], level);
    const least = near <= perM * Math.SQRT2 * grid.cellM * this.scale ? near : this.leastOf(HALF, 0);
    return least === CLOSED ? 1 : least;
  }

  /** The least cost of these hops of the half circle and their ways back, looked for until one is no more than `enough`. */
  private leastOf(list: readonly number[], enough: number): number {
    const { each, hops, offset, eastOf, northOf } = this;
    const { columns, rows } = this.footing.grid;
    let least = CLOSED;
    for (let row = 0; row < rows && least > enough; row += 1) {
      for (let column = 0; column < columns; column += 1) {
        const at = row * columns + column;
        for (const hop of list) {
          const toColumn = column + eastOf[hop]!;
          if (toColumn < 0 || toColumn >= columns || row + northOf[hop]! >= rows) continue;
          const there = at * each + hop;
          if (hops[there] === 0) this.openBoth(column, row, hop, false);
          least = Math.min(least, hops[there]!, hops[(at + offset[hop]!) * each + hop + each / 2]!);
        }
      }
    }
    return least;
  }

  /** Closes the hops from a point that enter a keep-out. */
  private shutFrom(at: number, column: number, row: number): void {
    const { boxes } = this;
    const { cellM, westM, southM } = this.footing.grid;
    const eastM = westM + column * cellM;
    const northM = southM + row * cellM;
    for (let k = 0; k < boxes.length; k += 1)
      if (!isBeyond(boxes[k]!, eastM, northM, SHUT_CELLS * cellM))
        this.shutNear(this.footing.terms.keepOuts[k]!, at, { eastM, northM });
  }

  /** The same from a point about the box of a keep-out. */
  private shutNear(shape: Shape, at: number, from: Point): void {
    const { each, closed, hops } = this;
    const { cellM } = this.footing.grid;
    if (inside(shape, from)) {
      hops.fill(closed, at * each, (at + 1) * each);
      return;
    }
    const awayCells = outlineAway(shape, from) / cellM;
    if (awayCells <= SHUT_CELLS) this.shutAcross(shape, at, from, awayCells);
  }

  /** Closes the hops from a point outside of a keep-out, so many cells away, that enter it. */
  private shutAcross(shape: Shape, at: number, from: Point, awayCells: number): void {
    const { each, closed, hops, eastOf, northOf, cells } = this;
    const { cellM } = this.footing.grid;
    for (let hop = 0; hop < each; hop += 1) {
      if (hops[at * each + hop] === closed || cells[hop]! + HAIR < awayCells) continue;
      const to = { eastM: from.eastM + eastOf[hop]! * cellM, northM: from.northM + northOf[hop]! * cellM };
      if (crosses(shape, from, to)) hops[at * each + hop] = closed;
    }
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

/** Distance in m from a point outside `shape` to its outline. */
function outlineAway(shape: Shape, point: Point): number {
  if (shape.type === "disc")
    return Math.hypot(point.eastM - shape.eastM, point.northM - shape.northM) - shape.radiusM;
  const { points } = shape;
  return points.reduce((least, corner, k) => {
    return Math.min(least, distanceToLine(point, corner, points[(k + 1) % points.length]!));
  }, Infinity);
}

/** True where a point is surely farther than so many metres from all of a box. */
function isBeyond({ west, east, south, north }: Box, eastM: number, northM: number, farM: number): boolean {
  const mostM = farM * (1 + HAIR);
  return eastM < west - mostM || eastM > east + mostM || northM < south - mostM || northM > north + mostM;
}
