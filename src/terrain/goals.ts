import { SLOWING } from "../physics/index.ts";
import type { Footing } from "./footing.ts";
import { heightAt } from "./grid.ts";
import { CLOSED, SCALE } from "./lattice.ts";
import type { Point } from "./shapes.ts";

/**
 * The places that a spread is to come to, and what is left to them at the least.
 *
 * No hop costs less than level ground of its length, and none up less than SLOWING level metres more for each metre of climb: walking up a
 * slope takes e to the power of SLOWING times the slope (`gait.ts` in physics), and e to any power is at least one more than the power. Where
 * energy is spared the power is no less than on the level. Sixteen hops from each point make some ways up to 2.8 % longer than the straight
 * line; that much too is sure to be left.
 */

/** A point of the lattice where a spread begins or is looked for, with the cost between it and the place. */
export interface Seed {
  readonly at: number;
  readonly cost: number;
}

/** A place that a spread is to come to. */
export interface Goal {
  readonly place: Point;
  /** Lattice points about it. */
  readonly ends: readonly Seed[];
  /** What a straight way that is open costs, thousandths; CLOSED for none. */
  readonly direct: number;
  /** No way to it that counts costs more, thousandths; CLOSED where that is not known. */
  readonly most: number;
}

/** What rounding comes to at most, as a share. */
const HAIR = 1e-9;
/** The last piece, from a point about a place to the place itself, is straight: shorter than by hops by so many cells at most. */
const STRAIGHT_CELLS = 0.08;

/** The least cost of coming to the goal as far as is known, and no more than its most. */
export function leastAt(cost: Int32Array, { ends, most }: Goal): number {
  let least = most;
  for (let k = 0; k < ends.length; k += 1) {
    const end = ends[k]!;
    const known = cost[end.at]!;
    if (known !== CLOSED && known + end.cost < least) least = known + end.cost;
  }
  return least;
}

/** What a way by hops from one place to another costs at least, thousandths. */
export function leastBetween({ grid, perM }: Footing, from: Point, to: Point): number {
  const cells = cellsByHops(
    Math.abs(to.eastM - from.eastM) / grid.cellM,
    Math.abs(to.northM - from.northM) / grid.cellM,
  );
  const climbM = heightAt(grid, to.eastM, to.northM) - heightAt(grid, from.eastM, from.northM);
  const climbCells = climbM > 0 ? (climbM * SLOWING) / grid.cellM : 0;
  return Math.max(0, cells + climbCells - 2 * STRAIGHT_CELLS) * perM * grid.cellM * SCALE;
}

const STEEP = { greater: Math.sqrt(5) - Math.SQRT2, smaller: 2 * Math.SQRT2 - Math.sqrt(5) };
const FLAT = { smaller: Math.sqrt(5) - 2 };

/** The least cells gone by hops: by straight ones and a knight's, or by a knight's and diagonal ones. */
function cellsByHops(east: number, north: number): number {
  const greater = east > north ? east : north;
  const smaller = east > north ? north : east;
  return smaller + smaller > greater
    ? STEEP.greater * greater + STEEP.smaller * smaller
    : greater + FLAT.smaller * smaller;
}

/** Goals that a spread has not come to yet, and whether a point may lie on a way to one of them. */
export class Ahead {
  private readonly cost: Int32Array;
  private readonly columns: number;
  private readonly heightM: Float64Array;
  /** What a cell costs at least. */
  private readonly perCell: number;
  /** What a metre of climb costs at least, in cells. */
  private readonly perClimb: number;
  private goals: readonly Goal[];
  /** By goal, one after the other: east and north in cells, its height, and the cells that no way to it that counts is longer than. */
  private readonly facts: Float64Array;
  /** The goal that the last point was on the way to: the next one mostly is too. */
  private last = 0;

  constructor({ grid, perM }: Footing, cost: Int32Array, goals: readonly Goal[]) {
    this.cost = cost;
    this.columns = grid.columns;
    this.heightM = grid.heightM;
    this.perCell = perM * grid.cellM * SCALE;
    this.perClimb = (SLOWING * (1 - HAIR)) / grid.cellM;
    this.goals = goals;
    this.facts = new Float64Array(4 * goals.length);
    this.note(grid);
  }

  /** Leaves out what costs less than all that is still to come. True when nothing is left. */
  isPast(leastCost: number, grid: Footing["grid"]): boolean {
    const { cost } = this;
    let isNew = false;
    this.goals = this.goals.flatMap((goal) => {
      const most = leastAt(cost, goal);
      isNew ||= most < goal.most || most < leastCost;
      return most < leastCost ? [] : [most === goal.most ? goal : { ...goal, most }];
    });
    if (isNew) this.note(grid);
    return this.goals.length === 0;
  }

  /** Whether a way by `point`, which costs `soFar` up to there, may bear on one of the goals: with the least that is left. */
  isOnTheWay(point: number, soFar: number): boolean {
    const { facts, perClimb, last } = this;
    const row = (point / this.columns) | 0;
    const column = point - row * this.columns;
    const height = this.heightM[point]!;
    const gone = soFar / this.perCell;
    const count = 4 * this.goals.length;
    for (let n = 0, k = last; n < count; n += 4, k = k + 4 === count ? 0 : k + 4) {
      const level = gone + cellsByHops(Math.abs(facts[k]! - column), Math.abs(facts[k + 1]! - row));
      const climb = (facts[k + 2]! - height) * perClimb;
      if (level > facts[k + 3]! || level + climb > facts[k + 3]!) continue;
      this.last = k;
      return true;
    }
    return false;
  }

  private note(grid: Footing["grid"]): void {
    const { cellM, westM, southM } = grid;
    this.last = 0;
    this.goals.forEach(({ place, most }, k) => {
      this.facts[4 * k] = (place.eastM - westM) / cellM;
      this.facts[4 * k + 1] = (place.northM - southM) / cellM;
      this.facts[4 * k + 2] = heightAt(grid, place.eastM, place.northM);
      this.facts[4 * k + 3] = most / this.perCell + STRAIGHT_CELLS;
    });
  }
}
