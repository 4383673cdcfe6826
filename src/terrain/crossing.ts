import type { HeightGrid } from "./grid.ts";

type Net = Pick<HeightGrid, "columns" | "rows" | "cellM" | "westM" | "southM">;

/**
 * The cells of a grid that a straight line crosses, in order, each with the metres from the line's begin at which it is
 * entered and left. On one cell the bilinear surface under a straight line is a parabola: whoever looks at each
 * crossing misses nothing between the points.
 *
 * A line along the edge between two cells is told of one of them. The line ends at the grid's edge. An object that is
 * moved on and not a list or a callback: it is in the innermost loops of ways, horizons and shadows.
 */
export class Crossing {
  /** The cell at hand: valid after `next()` was true. */
  column: number;
  row: number;
  startM = 0;
  endM = 0;
  private readonly stepX: number;
  private readonly stepY: number;
  /** Metres along the line for a cell to the east or north; negative where it goes back. */
  private readonly xPerLineM: number;
  private readonly yPerLineM: number;
  private readonly x: number;
  private readonly y: number;
  private readonly lastColumn: number;
  private readonly lastRow: number;
  private readonly lengthM: number;
  private xM: number;
  private yM: number;
  private isBegun = false;

  constructor(net: Net, eastM: number, northM: number, unitEast: number, unitNorth: number, lengthM: number) {
    const { columns, rows, cellM, westM, southM } = net;
    this.x = (eastM - westM) / cellM;
    this.y = (northM - southM) / cellM;
    this.lastColumn = columns - 2;
    this.lastRow = rows - 2;
    this.lengthM = lengthM;
    this.stepX = Math.sign(unitEast);
    this.stepY = Math.sign(unitNorth);
    this.xPerLineM = cellM / unitEast;
    this.yPerLineM = cellM / unitNorth;
    const isInside = this.x >= 0 && this.y >= 0 && this.x <= columns - 1 && this.y <= rows - 1;
    this.column = isInside ? firstCell(this.x, unitEast, columns) : -1;
    this.row = firstCell(this.y, unitNorth, rows);
    this.xM = this.leavesX();
    this.yM = this.leavesY();
  }

  /** Goes on to the next cell; false where there is none. */
  next(): boolean {
    for (;;) {
      if (this.isBegun) {
        if (this.endM >= this.lengthM) return false;
        this.step();
      }
      this.isBegun = true;
      const { column, row } = this;
      if (column < 0 || row < 0 || column > this.lastColumn || row > this.lastRow) return false;
      this.startM = this.endM;
      this.endM = Math.max(this.startM, Math.min(this.xM, this.yM, this.lengthM));
      if (this.endM > this.startM) return true;
    }
  }

  /** Into the cell behind the edge, or the corner, at which the last one was left. */
  private step(): void {
    const isEastWest = this.xM <= this.endM;
    if (this.yM <= this.endM) {
      this.row += this.stepY;
      this.yM = this.leavesY();
    }
    if (isEastWest) {
      this.column += this.stepX;
      this.xM = this.leavesX();
    }
  }

  // Counted anew each time, so that nothing adds up.
  private leavesX(): number {
    if (this.stepX === 0) return Infinity;
    return (this.column + (this.stepX > 0 ? 1 : 0) - this.x) * this.xPerLineM;
  }

  private leavesY(): number {
    if (this.stepY === 0) return Infinity;
    return (this.row + (this.stepY > 0 ? 1 : 0) - this.y) * this.yPerLineM;
  }
}

/** The first cell on a line from `at` towards `unit`: the one behind a grid line when it goes back over it. */
function firstCell(at: number, unit: number, points: number): number {
  const cell = unit < 0 ? Math.ceil(at) - 1 : Math.floor(at);
  return unit === 0 ? Math.min(points - 2, cell) : cell;
}
