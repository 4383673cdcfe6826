import { dipDeg, sightDeg } from "../physics/index.ts";
import { type HeightGrid, heightAt } from "./grid.ts";
import { memory } from "./remember.ts";
import type { Point } from "./shapes.ts";

/**
 * The horizon about a point of a height grid.
 *
 * A ray every half degree of azimuth, looked at cell by cell to the edge of the grid, curvature taken into account
 * (sight.ts); between rays the profile is linear. Beyond the grid the ground counts as smooth, at the level of the
 * eye's own footing: hills out there are not seen. Range: eyes up to 100 m over the ground. Not covered: what is
 * smaller than a cell, near ground above all; unknown heights, which hide nothing.
 */
export interface Skyline {
  /** Elevation of the horizon in degrees; entry k at azimuth k / 2 degrees. */
  readonly elevationDeg: Float64Array;
}

const RAYS = 720;
/** Eyes of somebody in a suit. */
const EYE_M = 1.5;

const skylines = memory<Skyline>(600);

/** The horizon seen from `point`; null where the height of the ground there is not known. */
export function skylineAt(grid: HeightGrid, point: Point, radiusM: number, eyeM = EYE_M): Skyline | null {
  const footM = heightAt(grid, point.eastM, point.northM);
  if (Number.isNaN(footM)) return null;
  const key = `${grid.key} ${point.eastM} ${point.northM} ${radiusM} ${eyeM}`;
  return skylines.of(key, () => ({
    elevationDeg: Float64Array.from({ length: RAYS }, (_, ray) =>
      rayDeg(grid, point, footM, ray, radiusM, eyeM),
    ),
  }));
}

function rayDeg(
  grid: HeightGrid,
  point: Point,
  footM: number,
  ray: number,
  radiusM: number,
  eyeM: number,
): number {
  const { cellM, columns, rows, westM, southM, heightM } = grid;
  const angle = (ray * 2 * Math.PI) / RAYS;
  const east = Math.sin(angle);
  const north = Math.cos(angle);
  let bestM = 0;
  let bestRise = -Infinity;
  let bestAway = 0;
  for (let awayM = cellM / 2; ; awayM += cellM / 2) {
    const x = (point.eastM + east * awayM - westM) / cellM;
    const y = (point.northM + north * awayM - southM) / cellM;
    if (!(x >= 0 && y >= 0 && x <= columns - 1 && y <= rows - 1)) break;
    const column = Math.min(columns - 2, Math.floor(x));
    const row = Math.min(rows - 2, Math.floor(y));
    const at = row * columns + column;
    const u = x - column;
    const v = y - row;
    const height =
      (heightM[at]! * (1 - u) + heightM[at + 1]! * u) * (1 - v) +
      (heightM[at + columns]! * (1 - u) + heightM[at + columns + 1]! * u) * v -
      footM;
    // The tangent of the elevation, curvature to first order: only the highest is worked out in full.
    const rise = (height - eyeM) / awayM - awayM / (2 * radiusM);
    if (rise > bestRise) {
      bestRise = rise;
      bestAway = awayM;
      bestM = height;
    }
  }
  const smooth = -dipDeg(eyeM, radiusM);
  return bestAway === 0 ? smooth : Math.max(smooth, sightDeg(bestAway, bestM, eyeM, radiusM));
}

/** Elevation of the horizon at an azimuth, degrees. */
export function horizonDeg({ elevationDeg }: Skyline, azimuthDeg: number): number {
  const ray = ((azimuthDeg / 360) * RAYS + RAYS) % RAYS;
  const first = Math.floor(ray);
  const share = ray - first;
  return elevationDeg[first % RAYS]! * (1 - share) + elevationDeg[(first + 1) % RAYS]! * share;
}
