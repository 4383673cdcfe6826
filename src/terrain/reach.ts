import { CLOSED, SCALE } from "./lattice.ts";
import { contour } from "./contour.ts";
import { fieldTo, type Network, type Peak } from "./network.ts";
import type { Point } from "./shapes.ts";
import type { Spread, Spreading } from "./spread.ts";
import { type GroundTrail, stepsAlong, trailFrom } from "./trail.ts";

/**
 * How far from safety the ground is: for every point of the grid the walk back to the nearest safe place.
 *
 * One spread against the hops, so that up and down are those of somebody walking home. Costs are level metres that take
 * as long; at the worst 2.8 % too many (lattice.ts), never too few for the grid. Range: networks that spare time.
 * Not covered: what footing.ts does not cover.
 */
export interface WalkbackReach {
  readonly network: Network;
  readonly safe: readonly Point[];
  /** Level metres home by point of the grid; Infinity where there is no way home. Looked for everywhere when it is first asked for. */
  readonly levelM: Float64Array;
  /** The same from one point of the grid. */
  homeM(at: number): number;
}

/** The walk back from everywhere to the nearest of `safe`. The network must spare time. */
export function reachOf(network: Network, safe: readonly Point[]): WalkbackReach {
  const field = fieldTo(network, safe);
  return {
    network,
    safe,
    get levelM() {
      return levelsOf(field);
    },
    homeM: (at) => metres(field.costTo(at)),
  };
}

/** Worked out once a field: every judgement of a plan with a ground asks for them. */
const levels = new WeakMap<Spread, Float64Array>();

function levelsOf(field: Spreading): Float64Array {
  let levelM = levels.get(field);
  if (!levelM) levels.set(field, (levelM = Float64Array.from(field.everywhere().cost, metres)));
  return levelM;
}

function metres(cost: number): number {
  return cost === CLOSED ? Infinity : cost / SCALE;
}

/**
 * The lines on which the walk back takes `seconds` at a level speed: inside them it takes less. Polylines in east and
 * north metres, closed ones ending where they begin. For emergency oxygen give its time, for a stock what it lasts.
 */
export function isochrones(reach: WalkbackReach, seconds: number, speedMs: number): Point[][] {
  return contour(reach.network.footing.grid, reach.levelM, seconds * speedMs);
}

/**
 * The farthest point of `trail` from the first of the safe places and its level metres home, whose ends are `fromM`
 * and `toM` level metres from home (Infinity: no way). Points between are taken a cell apart; home is by the grid or
 * on along the trail, whichever is less, pulled straight wherever that decides. Null where from some point there is
 * no way home.
 */
export function farthestOn(
  reach: WalkbackReach,
  trail: GroundTrail,
  fromM: number,
  toM: number,
): Peak | null {
  const way = [...trail.points, ...reach.safe].map(({ eastM, northM }) => `${eastM} ${northM}`);
  return reach.network.peaks.of(`${way.join(", ")}: ${fromM} ${toM}`, () => [
    searched(reach, trail, fromM, toM),
  ])[0];
}

/** So much less that another order of summing does not matter. */
const LESS = 1 - 1e-9;

function searched(reach: WalkbackReach, trail: GroundTrail, fromM: number, toM: number): Peak | null {
  const { lattice, footing } = reach.network;
  const home = reach.safe[0]!;
  const field = fieldTo(reach.network, reach.safe);
  const ends: Peak =
    fromM >= toM
      ? { levelM: fromM, at: trail.points[0]!, steepness: 0 }
      : { levelM: toM, at: trail.points.at(-1)!, steepness: 0 };
  const open = pointsOn(reach, trail, fromM, toM, ends.levelM).flatMap(({ at, byTrailM }) => {
    const levelM = Math.min(byTrailM, levelHomeM(reach, at, ends.levelM));
    return levelM <= ends.levelM ? [] : [{ at, levelM }];
  });
  open.sort((a, b) => b.levelM - a.levelM);
  let worst = ends;
  for (const point of open) {
    if (point.levelM <= worst.levelM) break;
    // No way costs more than the straight one.
    const straight = footing.straight(
      point.at.eastM,
      point.at.northM,
      home.eastM,
      home.northM,
      worst.levelM * LESS,
    );
    if (straight >= 0) continue;
    const exact = trailFrom(lattice, field, point.at, home);
    const levelM = Math.min(point.levelM, exact?.levelM ?? Infinity);
    if (levelM === Infinity) return null;
    if (levelM > worst.levelM) worst = { levelM, at: point.at, steepness: exact?.steepness ?? 0 };
  }
  return worst;
}

/**
 * Points inside a trail, a cell apart, with the level metres home on along it or back along it, whichever is less; as far as that is
 * more than `leastM`.
 */
function pointsOn(
  { network }: WalkbackReach,
  trail: GroundTrail,
  fromM: number,
  toM: number,
  leastM: number,
): { at: Point; byTrailM: number }[] {
  const { grid, step, straight } = network.footing;
  const { count, stepM, riseM, eastM, northM } = stepsAlong(grid, trail.points);
  const goneM = new Float64Array(count);
  let allM = 0;
  for (let k = 0; k < count; k += 1) {
    // `step` of a network that spares time is in level metres.
    allM += step(stepM[k]!, riseM[k]!);
    goneM[k] = allM;
  }
  const farther: { at: Point; byTrailM: number }[] = [];
  let backM = fromM;
  let before = trail.points[0]!;
  for (let k = 0; k < count - 1; k += 1) {
    const at = { eastM: eastM[k]!, northM: northM[k]! };
    const onM = allM - goneM[k]! + toM;
    // From here on it is ever less.
    if (onM <= leastM) break;
    const returnM = straight(at.eastM, at.northM, before.eastM, before.northM);
    backM = returnM >= 0 ? backM + returnM : Infinity;
    before = at;
    if (Math.min(backM, onM) > leastM) farther.push({ at, byTrailM: Math.min(backM, onM) });
  }
  return farther;
}

/**
 * Level metres home from anywhere, by the grid points about it; Infinity where there is no way or the ground is not known. The first one
 * that is `enough` will do.
 */
export function levelHomeM(
  { network, homeM }: WalkbackReach,
  { eastM, northM }: Point,
  enough: number,
): number {
  const { footing } = network;
  const { columns, rows, cellM, westM, southM } = footing.grid;
  const column = Math.min(columns - 2, Math.max(0, Math.floor((eastM - westM) / cellM)));
  const row = Math.min(rows - 2, Math.max(0, Math.floor((northM - southM) / cellM)));
  let least = Infinity;
  for (let k = 0; k < 4; k += 1) {
    const c = column + (k & 1);
    const r = row + (k >> 1);
    const rest = homeM(r * columns + c);
    if (rest >= least) continue;
    const cost = footing.straight(eastM, northM, westM + c * cellM, southM + r * cellM);
    if (cost >= 0 && cost + rest < least) least = cost + rest;
    if (least <= enough) return least;
  }
  return least;
}
