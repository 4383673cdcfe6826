import { slopeW, walkingMs } from "../physics/index.ts";
import { type Gentle, gentleCells } from "./gentle.ts";
import type { HeightGrid } from "./grid.ts";
import { isGentle } from "./incline.ts";
import { boxOf, crosses, type Shape } from "./shapes.ts";

/**
 * Where a height grid may be walked, and what a straight piece of it costs.
 *
 * A piece is walked in steps no longer than a cell on the bilinear surface. It is closed where the ground is unknown,
 * where at any of its points the surface is steeper up, down or across than allowed (incline.ts), and where it enters a
 * keep-out. Cost: by time, the level metres that take as long (`gait.ts`), so that one
 * answer holds for every level speed; by energy, tens of joules (`walk.ts` in physics) at a given load. The detour
 * factor lengthens steps, not slopes. Range: slopes to 45 degrees. Not covered: what is smaller than a cell, but for
 * the detour factor.
 */
export interface Footing {
  readonly grid: HeightGrid;
  readonly terms: Terms;
  readonly tanUp: number;
  readonly tanDown: number;
  readonly tanAcross: number;
  /** No metre of level distance costs less than this. */
  readonly perM: number;
  /** Cells that may be walked whichever way. */
  readonly gentle: Gentle;
  /** Cost of a step of `levelM` (without detour) that rises `riseM`. */
  step(levelM: number, riseM: number): number;
  /** Cost of the straight piece; -1 where it is closed or comes to more than `most`. */
  straight(fromEastM: number, fromNorthM: number, toEastM: number, toNorthM: number, most?: number): number;
  /** The same without looking whether it is closed where that takes long: for pieces that mostly cost too much. */
  rough(fromEastM: number, fromNorthM: number, toEastM: number, toNorthM: number, most: number): number;
  /** What `rough` leaves out: true where the piece enters no keep-out and is nowhere too steep. */
  isOpen(fromEastM: number, fromNorthM: number, toEastM: number, toNorthM: number): boolean;
}

/** What decides where the way goes. */
export interface Terms {
  readonly detour: number;
  readonly upDeg: number;
  readonly downDeg: number;
  readonly acrossDeg: number;
  /** Spare energy at this load; null spares time. */
  readonly effort: Effort | null;
  readonly keepOuts: readonly Shape[];
}

/** Who walks with what, where energy counts. */
export interface Effort {
  /** Metabolic rate on the level, W. */
  readonly levelW: number;
  /** Body, suit and load, kg. */
  readonly massKg: number;
  readonly gravityMs2: number;
  /** Speed on the level, m/s. */
  readonly speedMs: number;
}

const UNIT_J = 10;
/** A slope right at the limit is allowed, binary noise or not. */
const NOISE = 1e-9;

function tangent(deg: number): number {
  return Math.tan((deg * Math.PI) / 180) + NOISE;
}

/** The footing of `grid` on these terms. */
export function footingOf(grid: HeightGrid, terms: Terms): Footing {
  const tanUp = tangent(terms.upDeg);
  const tanDown = tangent(terms.downDeg);
  const tanAcross = tangent(terms.acrossDeg);
  const step = stepOf(terms);
  const perM = leastPerM(terms);
  const limits = { tanUp, tanDown, tanAcross };
  const gentle = gentleCells(grid, Math.min(tanUp, tanDown, tanAcross), terms.keepOuts.map(boxOf));
  const { cellM, westM, southM } = grid;

  return { grid, terms, ...limits, perM, gentle, step, straight, rough, isOpen };

  function straight(
    fromEastM: number,
    fromNorthM: number,
    toEastM: number,
    toNorthM: number,
    most = Infinity,
  ): number {
    const cost = rough(fromEastM, fromNorthM, toEastM, toNorthM, most);
    // Last: most pieces that are tried cost too much.
    return cost >= 0 && isOpen(fromEastM, fromNorthM, toEastM, toNorthM) ? cost : -1;
  }

  function isOpen(fromEastM: number, fromNorthM: number, toEastM: number, toNorthM: number): boolean {
    return (
      gentle.hasLine(
        (fromEastM - westM) / cellM,
        (fromNorthM - southM) / cellM,
        (toEastM - westM) / cellM,
        (toNorthM - southM) / cellM,
      ) ||
      (!isShut(terms.keepOuts, fromEastM, fromNorthM, toEastM, toNorthM) &&
        isGentle(grid, limits, fromEastM, fromNorthM, toEastM, toNorthM))
    );
  }

  function rough(
    fromEastM: number,
    fromNorthM: number,
    toEastM: number,
    toNorthM: number,
    most: number,
  ): number {
    const east = toEastM - fromEastM;
    const north = toNorthM - fromNorthM;
    const lengthM = Math.sqrt(east * east + north * north);
    if (lengthM * perM > most) return -1;
    const steps = Math.max(1, Math.ceil(lengthM / cellM - 1e-6));
    const stepM = lengthM / steps;
    let before = bilinear(grid, fromEastM, fromNorthM);
    if (Number.isNaN(before)) return -1;
    let cost = 0;
    for (let k = 1; k <= steps; k += 1) {
      const share = k / steps;
      const height = bilinear(grid, fromEastM + east * share, fromNorthM + north * share);
      const rise = height - before;
      if (!(rise <= tanUp * stepM && -rise <= tanDown * stepM)) return -1;
      cost += step(stepM, rise);
      if (cost + (steps - k) * stepM * perM > most) return -1;
      before = height;
    }
    return cost;
  }
}

/** True where the straight piece enters one of the keep-outs. */
function isShut(
  keepOuts: readonly Shape[],
  fromEastM: number,
  fromNorthM: number,
  toEastM: number,
  toNorthM: number,
): boolean {
  for (const shape of keepOuts) {
    const box = boxOf(shape);
    if (Math.max(fromEastM, toEastM) < box.west || Math.min(fromEastM, toEastM) > box.east) continue;
    if (Math.max(fromNorthM, toNorthM) < box.south || Math.min(fromNorthM, toNorthM) > box.north) continue;
    const from = { eastM: fromEastM, northM: fromNorthM };
    if (crosses(shape, from, { eastM: toEastM, northM: toNorthM })) return true;
  }
  return false;
}

/** Height at a point, linear both ways between the four about it; NaN off the grid and where one that counts is not known. */
function bilinear(grid: HeightGrid, eastM: number, northM: number): number {
  const { columns, rows, cellM, westM, southM, heightM } = grid;
  const x = (eastM - westM) / cellM;
  const y = (northM - southM) / cellM;
  if (!(x >= 0 && y >= 0 && x <= columns - 1 && y <= rows - 1)) return NaN;
  const column = x >= columns - 1 ? columns - 2 : x | 0;
  const row = y >= rows - 1 ? rows - 2 : y | 0;
  const at = row * columns + column;
  const u = x - column;
  const v = y - row;
  const south = u === 0 ? heightM[at]! : heightM[at]! * (1 - u) + heightM[at + 1]! * u;
  if (v === 0) return south;
  const over = at + columns;
  const north = u === 0 ? heightM[over]! : heightM[over]! * (1 - u) + heightM[over + 1]! * u;
  return south * (1 - v) + north * v;
}

function stepOf({ detour, effort }: Terms): Footing["step"] {
  if (!effort) {
    return (levelM, riseM) => {
      if (levelM === 0) return Math.abs(riseM);
      const walkedM = levelM * detour;
      return Math.sqrt(walkedM * walkedM + riseM * riseM) / walkingMs(1, riseM / levelM);
    };
  }
  const { levelW, massKg, gravityMs2, speedMs } = effort;
  return (levelM, riseM) => {
    if (levelM === 0) return 0;
    const walkedM = levelM * detour;
    const slope = riseM / levelM;
    const seconds = Math.sqrt(walkedM * walkedM + riseM * riseM) / walkingMs(speedMs, slope);
    return (seconds * (levelW + slopeW(massKg, gravityMs2, speedMs, Math.atan(slope)))) / UNIT_J;
  };
}

/** No metre of level distance costs less than this. */
function leastPerM({ detour, effort }: Terms): number {
  // Walking is never faster than level nor cheaper; a hair less, so that noise never makes a bound of it.
  return detour * (effort ? effort.levelW / effort.speedMs / UNIT_J : 1) * (1 - NOISE);
}
