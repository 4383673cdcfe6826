import { slopeW, walkingMs } from "../physics/index.ts";
import type { Footing } from "./footing.ts";
import type { Goal } from "./goals.ts";
import { heightAt } from "./grid.ts";
import { CLOSED, HOPS, type Lattice, SCALE } from "./lattice.ts";
import { pulled } from "./pull.ts";
import { type Point } from "./shapes.ts";
import { NO_HOP, seedsAt, type Spread, type Spreading } from "./spread.ts";

/** A way over a height grid, from place to place. */
export interface GroundTrail {
  /** Corners, both ends included. */
  readonly points: readonly Point[];
  /** Level metres gone at each corner, 0 at the first. */
  readonly goneM: readonly number[];
  /** Cost by the footing's aim. */
  readonly cost: number;
  /** Level metres that take as long as the way: divided by a level speed, its time. */
  readonly levelM: number;
  /** Walked along the surface, detour included, m. */
  readonly distanceM: number;
  /** Risen and fallen in all, m. */
  readonly climbM: number;
  readonly descentM: number;
  /** Slope work over time: its share of a climb straight up, mean over the way, as `slopeW` weighs it. */
  readonly steepness: number;
}

/** Extra power for unit mass, gravity and speed is a sine times this. */
const PER_SINE = slopeW(1, 1, 1, Math.PI / 2);

/** The trail along the spread `field` of `from`, which has come to `goal`; null where there is no way. */
export function trailTo(lattice: Lattice, field: Spread, from: Point, goal: Goal): GroundTrail | null {
  const end = endAt(field, goal);
  if (end === null) return surveyed(lattice.footing, [from, goal.place]);
  return end < 0 ? null : laid(lattice, from, chainFrom(lattice, field, end, -1).reverse(), goal.place);
}

/** The trail against the backward spread `field` of `to`, from any point `from`; null where there is no way. */
export function trailFrom(lattice: Lattice, field: Spreading, from: Point, to: Point): GroundTrail | null {
  const { footing } = lattice;
  const ends = seedsAt(footing, from, false);
  for (const { at } of ends) field.costTo(at);
  const start = endAt(field, { ends, direct: directCost(footing, from, to) });
  if (start === null) return surveyed(footing, [from, to]);
  return start < 0 ? null : laid(lattice, from, chainFrom(lattice, field, start, 1), to);
}

/** What the straight way costs, thousandths; CLOSED where it is. */
export function directCost({ straight }: Footing, from: Point, to: Point): number {
  const direct = straight(from.eastM, from.northM, to.eastM, to.northM);
  return direct >= 0 ? direct * SCALE : CLOSED;
}

/** The end by which the way goes: -1 where there is no way, null where the straight one is no dearer. */
export function endAt({ cost }: Spread, { ends, direct }: Pick<Goal, "ends" | "direct">): number | null {
  let end = -1;
  let total = CLOSED;
  for (const seed of ends) {
    const known = cost[seed.at]!;
    if (known !== CLOSED && known + seed.cost < total) {
      total = known + seed.cost;
      end = seed.at;
    }
  }
  return direct < CLOSED && direct <= total ? null : end;
}

/** The points gone by from `end` to where the spread began, each a hop along (1) or back (-1) from the one before. */
function chainFrom({ offset }: Lattice, { hop }: Spread, end: number, along: 1 | -1): number[] {
  const chain: number[] = [end];
  for (let at = end; hop[at] !== NO_HOP;) {
    at += along * offset[hop[at]!]!;
    chain.push(at);
  }
  return chain;
}

function laid(lattice: Lattice, from: Point, chain: readonly number[], to: Point): GroundTrail {
  const { corners, sums } = cornersOf(lattice, from, chain, to);
  return surveyed(lattice.footing, pulled(lattice.footing, corners, sums));
}

/** Where the path from `from` by the points of `chain` to `to` turns, both ends included, and what it has cost up to there. */
function cornersOf(
  lattice: Lattice,
  from: Point,
  chain: readonly number[],
  to: Point,
): { corners: Point[]; sums: number[] } {
  const { footing } = lattice;
  const { grid } = footing;
  const points = turnsOf(lattice, chain);
  const straight = (a: Point, b: Point): number =>
    Math.max(0, footing.straight(a.eastM, a.northM, b.eastM, b.northM));
  const way = points.map((at) => pointAt(grid, chain[at]!));
  const before = straight(from, way[0]!);
  const costs = costsAlong(lattice, chain, before);
  const corners = [from, ...way, to];
  const sums = [0, ...points.map((at) => costs[at]!), costs.at(-1)! + straight(way.at(-1)!, to)];
  // The path may go straight on at its first and last point too.
  for (const k of points.length > 1 ? [corners.length - 2, 1] : [1]) {
    if (!isStraight(corners[k - 1]!, corners[k]!, corners[k + 1]!)) continue;
    corners.splice(k, 1);
    sums.splice(k, 1);
  }
  return { corners, sums };
}

/** What the path has cost up to each point of `chain`, with what it cost up to the first. */
function costsAlong(lattice: Lattice, chain: readonly number[], before: number): Float64Array {
  const costs = new Float64Array(chain.length);
  costs[0] = before;
  for (let k = 1; k < chain.length; k += 1)
    costs[k] = costs[k - 1]! + hopCost(lattice, chain[k - 1]!, chain[k]!);
  return costs;
}

/** The first and the last of `chain`, and where it turns between them. */
function turnsOf({ footing }: Lattice, chain: readonly number[]): number[] {
  const turns = [0];
  const { columns } = footing.grid;
  for (let k = 1; k < chain.length - 1; k += 1) {
    const [before, here, next] = [chain[k - 1]!, chain[k]!, chain[k + 1]!];
    // Where a row is short, other hops too are as many points apart.
    const isSame =
      here - before === next - here &&
      (here % columns) - (before % columns) === (next % columns) - (here % columns);
    if (!isSame) turns.push(k);
  }
  if (chain.length > 1) turns.push(chain.length - 1);
  return turns;
}

function isStraight(a: Point, b: Point, c: Point): boolean {
  const cross = (b.eastM - a.eastM) * (c.northM - b.northM) - (b.northM - a.northM) * (c.eastM - b.eastM);
  return Math.abs(cross) < 1e-9 * Math.hypot(c.eastM - a.eastM, c.northM - a.northM) ** 2;
}

export function pointAt({ columns, cellM, westM, southM }: Footing["grid"], at: number): Point {
  return { eastM: westM + (at % columns) * cellM, northM: southM + Math.floor(at / columns) * cellM };
}

function hopCost(lattice: Lattice, from: number, to: number): number {
  for (let hop = 0; hop < HOPS; hop += 1) {
    if (lattice.offset[hop] !== to - from) continue;
    const price = lattice.price(from, hop);
    if (price !== CLOSED) return price / SCALE;
  }
  return Infinity;
}

/** The trail through `points` as it is walked, whether it is allowed or not. */
export function surveyed({ grid, terms, step }: Footing, points: readonly Point[]): GroundTrail {
  const { count, stepM, riseM, isCorner } = stepsAlong(grid, points);
  let cost = 0;
  let levelM = 0;
  let distanceM = 0;
  let climbM = 0;
  let descentM = 0;
  let work = 0;
  const goneM = [0];
  for (let k = 0; k < count; k += 1) {
    const goneOnM = stepM[k]!;
    const rise = riseM[k]!;
    const walkedM = goneOnM * terms.detour;
    const alongM = Math.hypot(walkedM, rise);
    const slope = goneOnM === 0 ? 0 : rise / goneOnM;
    const time = alongM / walkingMs(1, slope);
    cost += step(goneOnM, rise);
    levelM += time;
    distanceM += alongM;
    if (rise > 0) climbM += rise;
    else descentM -= rise;
    work += time * slopeW(1, 1, 1, Math.atan(slope));
    if (isCorner[k] === 1) goneM.push(levelM);
  }
  return {
    points,
    goneM,
    cost,
    levelM,
    distanceM,
    climbM,
    descentM,
    steepness: levelM === 0 ? 0 : work / levelM / PER_SINE,
  };
}

/** One trail after another; the first ends where the second begins. */
export function joinedTrails(a: GroundTrail, b: GroundTrail): GroundTrail {
  const levelM = a.levelM + b.levelM;
  return {
    points: [...a.points, ...b.points.slice(1)],
    goneM: [...a.goneM, ...b.goneM.slice(1).map((one) => a.levelM + one)],
    cost: a.cost + b.cost,
    levelM,
    distanceM: a.distanceM + b.distanceM,
    climbM: a.climbM + b.climbM,
    descentM: a.descentM + b.descentM,
    steepness: levelM === 0 ? 0 : (a.steepness * a.levelM + b.steepness * b.levelM) / levelM,
  };
}

/** The steps of a polyline, none longer than a cell. */
export interface Steps {
  readonly count: number;
  /** By step: its level length, its rise, where it ends, 1 where that is a corner. */
  readonly stepM: Float64Array;
  readonly riseM: Float64Array;
  readonly eastM: Float64Array;
  readonly northM: Float64Array;
  readonly isCorner: Uint8Array;
}

/** The steps of the polyline through `points`. */
export function stepsAlong(grid: Footing["grid"], points: readonly Point[]): Steps {
  const lengthsM = points
    .slice(1)
    .map((b, k) => Math.hypot(b.eastM - points[k]!.eastM, b.northM - points[k]!.northM));
  const counts = lengthsM.map((lengthM) => Math.max(1, Math.ceil(lengthM / grid.cellM - 1e-6)));
  const count = counts.reduce((sum, one) => sum + one, 0);
  const [stepM, riseM, eastM, northM] = [0, 0, 0, 0].map(() => new Float64Array(count));
  const steps: Steps = {
    count,
    stepM: stepM!,
    riseM: riseM!,
    eastM: eastM!,
    northM: northM!,
    isCorner: new Uint8Array(count),
  };
  for (let k = 0, first = 0; k < counts.length; first += counts[k]!, k += 1)
    putSteps(steps, grid, points[k]!, points[k + 1]!, lengthsM[k]!, counts[k]!, first);
  return steps;
}

/** Puts the steps from `a` to `b` down from the `first` on. */
function putSteps(
  { stepM, riseM, eastM, northM, isCorner }: Steps,
  grid: Footing["grid"],
  a: Point,
  b: Point,
  lengthM: number,
  count: number,
  first: number,
): void {
  let before = heightAt(grid, a.eastM, a.northM);
  for (let i = 1; i <= count; i += 1) {
    const k = first + i - 1;
    eastM[k] = a.eastM + ((b.eastM - a.eastM) * i) / count;
    northM[k] = a.northM + ((b.northM - a.northM) * i) / count;
    const height = heightAt(grid, eastM[k]!, northM[k]!);
    stepM[k] = lengthM / count;
    riseM[k] = height - before;
    before = height;
  }
  isCorner[first + count - 1] = 1;
}

/** Seconds on the trail at a level speed, rounded up. */
export function trailSeconds(trail: GroundTrail, speedMs: number): number {
  return Math.ceil(trail.levelM / speedMs - 1e-6);
}

/** The slope angle, radians, whose power all along is the trail's mean: what `Ways.slopeRad` holds. */
export function trailSlopeRad(trail: GroundTrail): number {
  return Math.asin(Math.min(1, trail.steepness));
}
