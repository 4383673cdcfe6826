import { incidence, type SkyDirection } from "../physics/index.ts";
import { gradients, type HeightGrid } from "./grid.ts";

/**
 * The ground in the light of the true sun, point by point: hillshade, and the shadow that ground casts on other ground.
 *
 * A point lies in cast shadow when, going towards the sun half a cell at a time, ground stands over the line to the
 * sun; the body's curvature is taken into account to first order. Range: grids small against the body. Not covered:
 * the sun's disc, hills beyond the grid, unknown heights, which cast no shadow.
 */

/** Brightness 0 to 1 of every point of the grid, cast shadow left out; NaN where the slope is not known. */
export function hillshade(grid: HeightGrid, sun: SkyDirection): Float64Array {
  const { east, north } = gradients(grid);
  return east.map((rise, at) => incidence(rise, north[at]!, sun));
}

/** For every point of the grid 1 where the sun reaches it, 0 in shadow, cast or its own, or unknown. */
export function sunlitPoints(grid: HeightGrid, sun: SkyDirection, radiusM: number): Uint8Array {
  const { columns, rows, cellM, heightM } = grid;
  const bright = hillshade(grid, sun);
  const lit = new Uint8Array(heightM.length);
  if (sun.elevationDeg <= -90 || sun.elevationDeg >= 90) return lit.map((_, at) => (bright[at]! > 0 ? 1 : 0));
  const tangent = Math.tan((sun.elevationDeg * Math.PI) / 180);
  const angle = (sun.azimuthDeg * Math.PI) / 180;
  // Half a cell towards the sun.
  const stepX = Math.sin(angle) / 2;
  const stepY = Math.cos(angle) / 2;
  const stepM = cellM / 2;
  let highest = -Infinity;
  for (const height of heightM) if (height > highest) highest = height;
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      const at = row * columns + column;
      if (bright[at]! > 0) lit[at] = reaches(column, row, heightM[at]!) ? 1 : 0;
    }
  }
  return lit;

  function reaches(column: number, row: number, height: number): boolean {
    for (let k = 1; ; k += 1) {
      const x = column + k * stepX;
      const y = row + k * stepY;
      const line = height + k * stepM * tangent + (k * stepM) ** 2 / (2 * radiusM);
      if (line > highest || !(x >= 0 && y >= 0 && x <= columns - 1 && y <= rows - 1)) return true;
      const c = Math.min(columns - 2, Math.floor(x));
      const r = Math.min(rows - 2, Math.floor(y));
      const at = r * columns + c;
      const u = x - c;
      const v = y - r;
      const south = heightM[at]! * (1 - u) + heightM[at + 1]! * u;
      const north = heightM[at + columns]! * (1 - u) + heightM[at + columns + 1]! * u;
      if (south * (1 - v) + north * v > line) return false;
    }
  }
}
