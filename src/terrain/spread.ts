import { pulse } from "../kernel/index.ts";
import type { Footing } from "./footing.ts";
import { CLOSED, HOPS, type Lattice, SCALE } from "./lattice.ts";
import type { Point } from "./shapes.ts";

/**
 * Least cost from some points of a lattice to all others, or from all others to them.
 *
 * Dijkstra 1959 with buckets after Denardo & Fox 1979 (Oper Res 27:161-186): buckets as wide as the least hop, so
 * whatever lies in the lowest one is final and no heap is needed. Whole numbers and a fixed order of hops: the same
 * on every machine.
 */
export interface Spread {
  /** Least cost by point, thousandths; CLOSED where there is no way. */
  readonly cost: Int32Array;
  /** The hop taken last on the way to a point or, backward, first on the way from it; NO_HOP at a seed. */
  readonly hop: Uint8Array;
}

export const NO_HOP = 255;
/** Some thousandths of a second of work. */
const POINTS_A_PULSE = 16_384;

/** A point of the lattice where a spread begins, with the cost between it and the place. */
export interface Seed {
  readonly at: number;
  readonly cost: number;
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

/** Spreads from `seeds` along the hops, or against them when `backward`: then costs are of ways to the seeds. */
export function spread(lattice: Lattice, seeds: readonly Seed[], backward: boolean): Spread {
  const { hops, offset, least, greatest } = lattice;
  // Imported constants are looked up at every use by some loaders; in this loop that is half the time.
  const [each, closed] = [HOPS, CLOSED];
  const points = hops.length / each;
  const cost = new Int32Array(points).fill(closed);
  const hop = new Uint8Array(points).fill(NO_HOP);
  if (seeds.length === 0) return { cost, hop };
  const lowest = seeds.reduce((low, seed) => Math.min(low, seed.cost), CLOSED);
  const highest = seeds.reduce((high, seed) => Math.max(high, seed.cost), 0);
  const waiting = new Buckets(points, least, Math.max(greatest, highest - lowest), lowest);
  let left = 0;
  for (const seed of seeds) {
    if (seed.cost >= cost[seed.at]!) continue;
    if (cost[seed.at] !== closed) waiting.leave(seed.at);
    cost[seed.at] = seed.cost;
    waiting.enter(seed.at, seed.cost);
  }
  for (let point = waiting.next(); point >= 0; point = waiting.next()) {
    if (++left % POINTS_A_PULSE === 0) pulse();
    const soFar = cost[point]!;
    for (let k = 0; k < each; k += 1) {
      const other = backward ? point - offset[k]! : point + offset[k]!;
      const price = backward
        ? other >= 0 && other < points
          ? hops[other * each + k]!
          : closed
        : hops[point * each + k]!;
      if (price === closed) continue;
      const total = soFar + price;
      const known = cost[other]!;
      if (total >= known) continue;
      if (known !== closed) waiting.leave(other);
      cost[other] = total;
      hop[other] = k;
      waiting.enter(other, total);
    }
  }
  return { cost, hop };
}

/** Points in buckets by their cost, each bucket as wide as the least hop; a ring of them, since costs in it differ by little. */
class Buckets {
  private readonly head: Int32Array;
  private readonly after: Int32Array;
  private readonly before: Int32Array;
  private readonly width: number;
  private bucket: number;
  private waiting = 0;

  constructor(points: number, width: number, widest: number, lowest: number) {
    const buckets = Math.ceil(widest / width) + 2;
    this.width = width;
    this.head = new Int32Array(buckets).fill(-1);
    this.after = new Int32Array(points);
    this.before = new Int32Array(points);
    this.bucket = Math.floor(lowest / width) % buckets;
  }

  enter(point: number, cost: number): void {
    const { head, after, before } = this;
    const bucket = ((cost / this.width) | 0) % head.length;
    const first = head[bucket]!;
    after[point] = first;
    before[point] = -1 - bucket;
    if (first >= 0) before[first] = point;
    head[bucket] = point;
    this.waiting += 1;
  }

  leave(point: number): void {
    const { head, after, before } = this;
    const next = after[point]!;
    const last = before[point]!;
    if (last >= 0) after[last] = next;
    else head[-1 - last] = next;
    if (next >= 0) before[next] = last;
    this.waiting -= 1;
  }

  /** Takes out a point of the lowest bucket; -1 where none waits. */
  next(): number {
    if (this.waiting === 0) return -1;
    const { head } = this;
    while (head[this.bucket]! < 0) this.bucket = this.bucket + 1 === head.length ? 0 : this.bucket + 1;
    const point = head[this.bucket]!;
    this.leave(point);
    return point;
  }
}
