import { pulse } from "../kernel/index.ts";
import type { Footing } from "./footing.ts";
import { CLOSED, HOPS, type Lattice, SCALE } from "./lattice.ts";
import type { Point } from "./shapes.ts";

/**
 * Least cost from some points of a lattice to all others, or from all others to them; or only as far as it bears on the ways to
 * some goals.
 *
 * Dijkstra 1959 with buckets after Denardo & Fox 1979 (Oper Res 27:161-186): buckets as wide as the least hop, so
 * whatever lies in the lowest one is final and no heap is needed. Whole numbers and a fixed order of hops: the same
 * on every machine. With goals it does not go on from a point that is too far from all of them, the straight line being the least
 * that is left (Hart, Nilsson & Raphael 1968, IEEE Trans Syst Sci Cybern 4:100-107): the rest is gone through in the same order, so
 * that the ways to the goals are the very same as without any.
 */
export interface Spread {
  /** Least cost by point, thousandths; CLOSED where there is no way. With goals it is so on the ways to them. */
  readonly cost: Int32Array;
  /** The hop taken last on the way to a point or, backward, first on the way from it; NO_HOP at a seed. */
  readonly hop: Uint8Array;
}

export const NO_HOP = 255;
/** Some thousandths of a second of work. */
const POINTS_A_PULSE = 16_384;

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

/** The lattice points about a place, four by four, with the straight cost to them, or from them when `backward`. */
export function seedsAt(footing: Footing, place: Point, backward: boolean): Seed[] {
  const { columns, rows, cellM, westM, southM } = footing.grid;
  const column = Math.floor((place.eastM - westM) / cellM);
  const row = Math.floor((place.northM - southM) / cellM);
  const seeds: Seed[] = [];
  for (let r = Math.max(0, row - 1); r <= Math.min(rows - 1, row + 2); r += 1) {
    for (let c = Math.max(0, column - 1); c <= Math.min(columns - 1, column + 2); c += 1) {
      const eastM = westM + c * cellM;
      const northM = southM + r * cellM;
      const cost = backward
        ? footing.straight(eastM, northM, place.eastM, place.northM)
        : footing.straight(place.eastM, place.northM, eastM, northM);
      if (cost >= 0) seeds.push({ at: r * columns + c, cost: Math.ceil(cost * SCALE) });
    }
  }
  return seeds;
}

/**
 * Spreads from `seeds` along the hops, or against them when `backward`: then costs are of ways to the seeds. With `goals` only until
 * it is sure for each what coming to it costs, and by which of its ends, as far as that is no more than its `most`.
 */
export function spread(
  lattice: Lattice,
  seeds: readonly Seed[],
  backward: boolean,
  goals?: readonly Goal[],
): Spread {
  const front = new Front(lattice, seeds, backward, goals ?? null);
  front.goOn();
  return { cost: front.cost, hop: front.hop };
}

/** The least cost of coming to the goal as far as is known, and no more than its most. */
function leastAt(cost: Int32Array, { ends, most }: Goal): number {
  let least = most;
  for (const end of ends) {
    const known = cost[end.at]!;
    if (known !== CLOSED && known + end.cost < least) least = known + end.cost;
  }
  return least;
}

/** Goals that a spread has not come to yet, and whether a point may lie on a way to one of them. */
class Ahead {
  private readonly cost: Int32Array;
  private readonly columns: number;
  /** What a cell costs at least. */
  private readonly perCell: number;
  private goals: { readonly goal: Goal; readonly x: number; readonly y: number; most: number }[];

  constructor({ grid, perM }: Footing, cost: Int32Array, goals: readonly Goal[]) {
    const { columns, westM, southM, cellM } = grid;
    this.cost = cost;
    this.columns = columns;
    this.perCell = perM * cellM * SCALE;
    this.goals = goals.map((goal) => ({
      goal,
      x: (goal.place.eastM - westM) / cellM,
      y: (goal.place.northM - southM) / cellM,
      most: goal.most,
    }));
  }

  /** Leaves out what costs less than all that is still to come. True when nothing is left. */
  isPast(leastCost: number): boolean {
    for (const one of this.goals) one.most = leastAt(this.cost, one.goal);
    this.goals = this.goals.filter(({ most }) => most >= leastCost);
    return this.goals.length === 0;
  }

  /** Whether a way by `point` may bear on one of the goals. */
  isOnTheWay(point: number): boolean {
    const { goals, perCell } = this;
    const row = (point / this.columns) | 0;
    const column = point - row * this.columns;
    const soFar = this.cost[point]!;
    for (let k = 0; k < goals.length; k += 1) {
      const { x, y, most } = goals[k]!;
      const cells = (most - soFar) / perCell;
      if (cells >= 0 && (x - column) * (x - column) + (y - row) * (y - row) <= cells * cells) return true;
    }
    return false;
  }
}

/** Buckets after which a spread asks again to which goals it has come. */
const BUCKETS_A_LOOK = 4;
/** Entries that a front has room for at first. */
const FIRST_ENTRIES = 1024;

/**
 * A spread under way: points in buckets by their cost, a ring of them, since costs that wait differ by little. Each bucket is a list of entries, the
 * newest first; whoever was entered again for less leaves the old entry to be passed over.
 */
class Front {
  readonly cost: Int32Array;
  readonly hop: Uint8Array;
  private readonly lattice: Lattice;
  private readonly backward: boolean;
  private readonly ahead: Ahead | null;
  private readonly head: Int32Array;
  /** The lowest bucket that may hold anything, counted from cost 0. */
  private bucket: number;
  private entries = 0;
  /** By entry: its point and cost then, and the one after it in its bucket, or among those that are free. */
  private point = new Int32Array(0);
  private price = new Int32Array(0);
  private next = new Int32Array(0);
  private free = -1;

  constructor(lattice: Lattice, seeds: readonly Seed[], backward: boolean, goals: readonly Goal[] | null) {
    const { hops, least, greatest, footing } = lattice;
    const points = hops.length / HOPS;
    const lowest = seeds.reduce((low, seed) => Math.min(low, seed.cost), CLOSED);
    const highest = seeds.reduce((high, seed) => Math.max(high, seed.cost), 0);
    this.lattice = lattice;
    this.backward = backward;
    this.cost = new Int32Array(points).fill(CLOSED);
    this.hop = new Uint8Array(points).fill(NO_HOP);
    this.ahead = goals && new Ahead(footing, this.cost, goals);
    this.head = new Int32Array(Math.ceil(Math.max(greatest, highest - lowest) / least) + 2).fill(-1);
    this.bucket = Math.floor(lowest / least);
    for (const seed of seeds) {
      if (seed.cost >= this.cost[seed.at]!) continue;
      this.cost[seed.at] = seed.cost;
      this.enter(seed.at, seed.cost);
    }
  }

  /** Until nothing waits, or it has come to all goals. */
  goOn(): void {
    const { ahead } = this;
    const { least } = this.lattice;
    let points = 0;
    for (; this.entries > 0; this.bucket += 1) {
      if (ahead && this.bucket % BUCKETS_A_LOOK === 0 && ahead.isPast(this.bucket * least)) return;
      points += this.empty();
      if (points < POINTS_A_PULSE) continue;
      points = 0;
      pulse();
    }
  }

  /** Goes on from all points of the lowest bucket, and says how many those were. */
  private empty(): number {
    const { ahead, backward, cost, head } = this;
    const lowest = this.bucket % head.length;
    let points = 0;
    for (let entry = head[lowest]!; entry >= 0; entry = head[lowest]!) {
      const at = this.point[entry]!;
      const soFar = this.price[entry]!;
      head[lowest] = this.next[entry]!;
      this.next[entry] = this.free;
      this.free = entry;
      this.entries -= 1;
      if (soFar !== cost[at] || (ahead && !ahead.isOnTheWay(at))) continue;
      points += 1;
      if (backward) this.against(at, soFar);
      else this.along(at, soFar);
    }
    return points;
  }

  /** Along every hop from a point. */
  private along(point: number, soFar: number): void {
    const { cost, hop } = this;
    const { hops, offset } = this.lattice;
    // Imported constants are looked up at every use by some loaders; in these loops that is half the time.
    const [each, closed] = [HOPS, CLOSED];
    const first = point * each;
    for (let k = 0; k < each; k += 1) {
      const price = hops[first + k]!;
      if (price === closed) continue;
      const other = point + offset[k]!;
      const total = soFar + price;
      if (total >= cost[other]!) continue;
      cost[other] = total;
      hop[other] = k;
      this.enter(other, total);
    }
  }

  /** Against every hop to a point. */
  private against(point: number, soFar: number): void {
    const { cost, hop } = this;
    const { hops, offset } = this.lattice;
    const [each, closed] = [HOPS, CLOSED];
    for (let k = 0; k < each; k += 1) {
      const other = point - offset[k]!;
      if (other < 0 || other >= cost.length) continue;
      const price = hops[other * each + k]!;
      if (price === closed) continue;
      const total = soFar + price;
      if (total >= cost[other]!) continue;
      cost[other] = total;
      hop[other] = k;
      this.enter(other, total);
    }
  }

  private enter(point: number, cost: number): void {
    if (this.free < 0) this.makeRoom();
    const { head, next } = this;
    const bucket = ((cost / this.lattice.least) | 0) % head.length;
    const entry = this.free;
    this.free = next[entry]!;
    this.point[entry] = point;
    this.price[entry] = cost;
    next[entry] = head[bucket]!;
    head[bucket] = entry;
    this.entries += 1;
  }

  /** Twice as many entries, the new ones free. */
  private makeRoom(): void {
    const had = this.next.length;
    const room = Math.max(FIRST_ENTRIES, 2 * had);
    const grown = (list: Int32Array): Int32Array<ArrayBuffer> => {
      const longer = new Int32Array(room);
      longer.set(list);
      return longer;
    };
    this.point = grown(this.point);
    this.price = grown(this.price);
    this.next = grown(this.next);
    for (let entry = had; entry < room; entry += 1) this.next[entry] = entry + 1 < room ? entry + 1 : -1;
    this.free = had;
  }
}
