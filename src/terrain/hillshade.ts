import { pulse } from "../kernel/index.ts";
import { incidence, type SkyDirection } from "../physics/index.ts";
import { blocksOf } from "./blocks.ts";
import { Crossing } from "./crossing.ts";
import { gradients, type HeightGrid } from "./grid.ts";

/**
 * The ground in the light of the true sun, point by point: hillshade, and the shadow that ground casts on other ground.
 *
 * A point lies in cast shadow when, going towards the sun cell by cell, anywhere the bilinear ground stands over the line
 * to the sun, or unknown ground, taken to be as high as the highest known, before known ground; the body's curvature is taken into account to first order,
 * which never makes the line too high. Range: grids small against the body. Not covered: the sun's disc, hills beyond
 * the grid.
 */

/** Brightness 0 to 1 of every point of the grid, cast shadow left out; NaN where the slope is not known. */
export function hillshade(grid: HeightGrid, sun: SkyDirection): Float64Array {
  const { east, north } = gradients(grid);
  return east.map((rise, at) => incidence(rise, north[at]!, sun));
}

/** Noise of the sums over a line that touches the ground. */
const NOISE_M = 1e-6;

/** A point of the grid from which the sun is looked for. */
interface Start {
  readonly eastM: number;
  readonly northM: number;
  readonly column: number;
  readonly row: number;
  readonly height: number;
}

/** What lies on the line to the sun so far: nothing, ground of unknown height and nothing else, or ground that hides it. */
type Seen = "clear" | "unknown" | "hidden";

/** For every point of the grid 1 where the sun reaches it, 0 in shadow, cast or its own, or unknown. */
export function sunlitPoints(grid: HeightGrid, sun: SkyDirection, radiusM: number): Uint8Array {
  const { columns, rows, heightM } = grid;
  const bright = hillshade(grid, sun);
  const lit = new Uint8Array(heightM.length);
  if (sun.elevationDeg <= -90 || sun.elevationDeg >= 90) return lit.map((_, at) => (bright[at]! > 0 ? 1 : 0));
  const light = new Sunlight(grid, sun, radiusM);
  for (let row = 0; row < rows; row += 1) {
    pulse();
    for (let column = 0; column < columns; column += 1) {
      const at = row * columns + column;
      if (bright[at]! > 0) lit[at] = light.reaches(column, row, heightM[at]!) ? 1 : 0;
    }
  }
  return lit;
}

/** The lines from points of a grid to the sun, and the ground under them. */
class Sunlight {
  private readonly grid: HeightGrid;
  private readonly blocks: ReturnType<typeof blocksOf>;
  private readonly radiusM: number;
  private readonly tangent: number;
  private readonly east: number;
  private readonly north: number;
  private readonly highest: number;

  constructor(grid: HeightGrid, sun: SkyDirection, radiusM: number) {
    const angle = (sun.azimuthDeg * Math.PI) / 180;
    this.grid = grid;
    this.blocks = blocksOf(grid);
    this.radiusM = radiusM;
    this.tangent = Math.tan((sun.elevationDeg * Math.PI) / 180);
    this.east = Math.sin(angle);
    this.north = Math.cos(angle);
    let highest = -Infinity;
    for (const height of grid.heightM) if (height > highest) highest = height;
    this.highest = highest;
  }

  reaches(column: number, row: number, height: number): boolean {
    const { blocks } = this;
    const { cellM, westM, southM } = this.grid;
    const start = { eastM: westM + column * cellM, northM: southM + row * cellM, column, row, height };
    let seen: Seen = "clear";
    const outer = new Crossing(blocks.net, start.eastM, start.northM, this.east, this.north, Infinity);
    while (outer.next()) {
      const lineM = this.lineAt(height, outer.startM);
      if (lineM > this.highest) return true;
      const topM = blocks.topM[outer.row * (blocks.net.columns - 1) + outer.column]!;
      if (topM > lineM || Number.isNaN(topM)) seen = this.lookInside(start, outer.startM, outer.endM, seen);
      else if (seen === "unknown") return false;
      if (seen === "hidden") return false;
    }
    return true;
  }

  /** Goes on from what was `seen` before, cell by cell between two distances. Known ground behind unknown ground hides. */
  private lookInside(start: Start, fromM: number, toM: number, seen: Seen): Seen {
    const { eastM, northM, height } = start;
    const { columns, heightM } = this.grid;
    let isUnknown = seen === "unknown";
    const line = new Crossing(
      this.grid,
      eastM + this.east * fromM,
      northM + this.north * fromM,
      this.east,
      this.north,
      toM - fromM,
    );
    while (line.next()) {
      const at = line.row * columns + line.column;
      const top = Math.max(
        heightM[at]!,
        heightM[at + 1]!,
        heightM[at + columns]!,
        heightM[at + columns + 1]!,
      );
      if (Number.isNaN(top)) {
        isUnknown = true;
        continue;
      }
      if (isUnknown) return "hidden";
      const startM = fromM + line.startM;
      if (top <= this.lineAt(height, startM)) continue;
      if (this.highestOver(start, line.column, line.row, startM, fromM + line.endM) > NOISE_M)
        return "hidden";
    }
    return isUnknown ? "unknown" : "clear";
  }

  /** How far the ground of a cell stands over the line to the sun at most, m: a parabola of the distance. */
  private highestOver(start: Start, column: number, row: number, startM: number, endM: number): number {
    const { east, north } = this;
    const { cellM, columns, heightM } = this.grid;
    const at = row * columns + column;
    const sw = heightM[at]!;
    const se = heightM[at + 1]!;
    const nw = heightM[at + columns]!;
    const ne = heightM[at + columns + 1]!;
    const u = start.column - column;
    const v = start.row - row;
    const twist = ne - se - nw + sw;
    const over = sw + (se - sw) * u + (nw - sw) * v + twist * u * v - start.height;
    const rise =
      ((se - sw) * east + (nw - sw) * north + twist * (u * north + v * east)) / cellM - this.tangent;
    const bend = (twist * east * north) / cellM ** 2 - 1 / (2 * this.radiusM);
    const turnM = bend < 0 ? Math.min(endM, Math.max(startM, -rise / (2 * bend))) : startM;
    return Math.max(
      over + (rise + bend * startM) * startM,
      over + (rise + bend * endM) * endM,
      over + (rise + bend * turnM) * turnM,
    );
  }

  /** Height of the line to the sun, m. */
  private lineAt(height: number, awayM: number): number {
    return height + awayM * this.tangent + awayM ** 2 / (2 * this.radiusM);
  }
}
