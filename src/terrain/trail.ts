import { slopeW, walkingMs } from "../physics/index.ts";
import type { Footing } from "./footing.ts";
import { heightAt } from "./grid.ts";
import { CLOSED, HOPS, type Lattice, SCALE } from "./lattice.ts";
import { pulled } from "./pull.ts";
import { type Point } from "./shapes.ts";
import { type Goal, NO_HOP, seedsAt, type Spread } from "./spread.ts";

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
export function trailFrom(lattice: Lattice, field: Spread, from: Point, to: Point): GroundTrail | null {
  const { footing } = lattice;
  const ends = seedsAt(footing, from, false);
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
function endAt({ cost }: Spread, { ends, direct }: Pick<Goal, "ends" | "direct">): number | null {
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
  const { grid } = lattice.footing;
  const points: Point[] = [from];
  const costs: number[] = [];
  const place = (at: number): Point => ({
    eastM: grid.westM + (at % grid.columns) * grid.cellM,
    northM: grid.southM + Math.floor(at / grid.columns) * grid.cellM,
  });
  const straight = (a: Point, b: Point): number =>
    lattice.footing.straight(a.eastM, a.northM, b.eastM, b.northM);
  chain.forEach((at, k) => {
    const here = place(at);
    costs.push(k === 0 ? Math.max(0, straight(from, here)) : hopCost(lattice, chain[k - 1]!, at));
    points.push(here);
  });
  costs.push(Math.max(0, straight(points.at(-1)!, to)));
  points.push(to);
  return surveyed(lattice.footing, pulled(lattice.footing, points, costs));
}

function hopCost({ hops, offset }: Lattice, from: number, to: number): number {
  for (let hop = 0; hop < HOPS; hop += 1)
    if (offset[hop] === to - from && hops[from * HOPS + hop] !== CLOSED)
      return hops[from * HOPS + hop]! / SCALE;
  return Infinity;
}

/** The trail through `points` as it is walked, whether it is allowed or not. */
export function surveyed({ grid, terms, step }: Footing, points: readonly Point[]): GroundTrail {
  let cost = 0;
  let levelM = 0;
  let distanceM = 0;
  let climbM = 0;
  let descentM = 0;
  let work = 0;
  const goneM = [0];
  stepAlong(grid, points, (stepM, rise, _east, _north, corner) => {
    const walkedM = stepM * terms.detour;
    const alongM = Math.hypot(walkedM, rise);
    const slope = stepM === 0 ? 0 : rise / stepM;
    const time = alongM / walkingMs(1, slope);
    cost += step(stepM, rise);
    levelM += time;
    distanceM += alongM;
    if (rise > 0) climbM += rise;
    else descentM -= rise;
    work += time * slopeW(1, 1, 1, Math.atan(slope));
    if (corner) goneM.push(levelM);
  });
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

/** Tells every step of the polyline, no longer than a cell: its level length, its rise, where it ends, whether at a corner. */
export function stepAlong(
  grid: Footing["grid"],
  points: readonly Point[],
  tell: (stepM: number, riseM: number, eastM: number, northM: number, corner: boolean) => void,
): void {
  for (let k = 1; k < points.length; k += 1) {
    const a = points[k - 1]!;
    const b = points[k]!;
    const lengthM = Math.hypot(b.eastM - a.eastM, b.northM - a.northM);
    const steps = Math.max(1, Math.ceil(lengthM / grid.cellM - 1e-6));
    let before = heightAt(grid, a.eastM, a.northM);
    for (let i = 1; i <= steps; i += 1) {
      const eastM = a.eastM + ((b.eastM - a.eastM) * i) / steps;
      const northM = a.northM + ((b.northM - a.northM) * i) / steps;
      const height = heightAt(grid, eastM, northM);
      tell(lengthM / steps, height - before, eastM, northM, i === steps);
      before = height;
    }
  }
}

/** Seconds on the trail at a level speed, rounded up. */
export function trailSeconds(trail: GroundTrail, speedMs: number): number {
  return Math.ceil(trail.levelM / speedMs - 1e-6);
}

/** The slope angle, radians, whose power all along is the trail's mean: what `Ways.slopeRad` holds. */
export function trailSlopeRad(trail: GroundTrail): number {
  return Math.asin(Math.min(1, trail.steepness));
}

/**
 * Metabolic energy in J of walking the trail at `speedMs` on the level: `levelW` over the time, and the work of its
 * slopes with `massKg` in all (body, suit, load).
 */
export function trailEnergyJ(
  trail: GroundTrail,
  load: {
    readonly levelW: number;
    readonly massKg: number;
    readonly gravityMs2: number;
    readonly speedMs: number;
  },
): number {
  const seconds = trail.levelM / load.speedMs;
  return seconds * (load.levelW + slopeW(load.massKg, load.gravityMs2, load.speedMs, trailSlopeRad(trail)));
}
