import { pulse } from "../kernel/index.ts";
import type { Footing } from "./footing.ts";
import { Ahead, type Goal, type Seed } from "./goals.ts";
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

/** A spread that goes on as far as it is asked. */
export interface Spreading extends Spread {
  /** The least cost of a point; cost and hops on the way there are final from then on. */
  costTo(at: number): number;
  /** The same spread, come to every point. */
  everywhere(): Spread;
}

export const NO_HOP = 255;
/** Some thousandths of a second of work. */
const POINTS_A_PULSE = 4096;

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
 * Spreads from `seeds` along the hops until it is sure for each of `goals` what coming to it costs, and by which of its ends, as far as
 * that is no more than its `most`.
 */
export function spreadTo(lattice: Lattice, seeds: readonly Seed[], goals: readonly Goal[]): Spread {
  const { cost, hop } = new Front(lattice, seeds, false, goals, linksOn(lattice)).everywhere();
  return { cost, hop };
}

/** A spread from `seeds` along the hops, or against them when `backward`: then costs are of ways to the seeds. It goes on only when it is asked. */
export function spreading(lattice: Lattice, seeds: readonly Seed[], backward: boolean): Spreading {
  return new Front(lattice, seeds, backward, null, newLinks(lattice));
}

/** A spread that has come everywhere, as one that may be asked. */
export function spreadOut({ cost, hop }: Spread): Spreading {
  const all: Spreading = { cost, hop, costTo: (at) => cost[at]!, everywhere: () => all };
  return all;
}

/** What the way on which `field` has come to a point costs the other way round, to the seed it began with; CLOSED where it cannot be gone so. */
export function turnedBack(lattice: Lattice, field: Spread, point: number): { seed: number; cost: number } {
  let cost = 0;
  let at = point;
  while (field.hop[at] !== NO_HOP) {
    const hop = field.hop[at]!;
    const back = lattice.price(at, (hop + HOPS / 2) % HOPS);
    if (back === CLOSED) return { seed: at, cost: CLOSED };
    cost += back;
    at -= lattice.offset[hop]!;
  }
  return { seed: at, cost };
}

/** How the points of a bucket hang together, by point: the one after it, or -1; and the one before it, or `~place` of the bucket in the ring. */
interface Links {
  readonly next: Int32Array;
  readonly before: Int32Array;
}

/** Whoever spreads at one go takes those of the one before: they are read only where they were written. */
const links = new WeakMap<Lattice, Links>();

function linksOn(lattice: Lattice): Links {
  const known = links.get(lattice) ?? newLinks(lattice);
  links.set(lattice, known);
  return known;
}

function newLinks({ worked }: Lattice): Links {
  return { next: new Int32Array(worked.length), before: new Int32Array(worked.length) };
}

/** Buckets after which a spread asks again to which goals it has come. */
const BUCKETS_A_LOOK = 4;
/** Buckets that a front has room for at first, a power of two. */
const FIRST_BUCKETS = 256;

/**
 * A spread under way: the points that wait, in buckets by their cost, a ring of them, since costs that wait differ by little. Each bucket is a list, the
 * newest first, linked both ways, so that a point that costs less than was thought is put elsewhere.
 */
class Front implements Spreading {
  readonly cost: Int32Array;
  readonly hop: Uint8Array;
  private readonly lattice: Lattice;
  private readonly backward: boolean;
  private readonly ahead: Ahead | null;
  /** From a point to the one that each hop leads to or, backward, comes from. */
  private readonly beside: Int32Array;
  /** By hop: from a point's entries in the lattice to the one that counts. */
  private readonly shift: Int32Array;
  /** From a point to those whose hops count. */
  private readonly origins: Int32Array;
  private head = new Int32Array(FIRST_BUCKETS).fill(-1);
  /** The lowest bucket that may hold anything, counted from cost 0: what costs less is final. */
  private bucket: number;
  private waiting = 0;
  private readonly next: Int32Array;
  private readonly before: Int32Array;

  constructor(
    lattice: Lattice,
    seeds: readonly Seed[],
    backward: boolean,
    goals: readonly Goal[] | null,
    links: Links,
  ) {
    const { worked, least, footing, offset } = lattice;
    const lowest = seeds.reduce((low, seed) => Math.min(low, seed.cost), CLOSED);
    this.lattice = lattice;
    this.backward = backward;
    this.cost = new Int32Array(worked.length).fill(CLOSED);
    this.hop = new Uint8Array(worked.length).fill(NO_HOP);
    this.next = links.next;
    this.before = links.before;
    this.beside = backward ? offset.map((points) => -points) : offset;
    this.shift = backward ? offset.map((points, hop) => hop - points * HOPS) : offset.map((_, hop) => hop);
    this.origins = backward ? this.beside : Int32Array.of(0);
    this.ahead = goals && new Ahead(footing, this.cost, goals);
    this.bucket = Math.floor(lowest / least);
    for (const { at, cost } of seeds) if (cost < this.cost[at]!) this.enter(at, cost);
  }

  costTo(at: number): number {
    const { cost, bucket, lattice } = this;
    if (cost[at]! >= bucket * lattice.least && !this.isCutOff(at)) this.goOn(at);
    return cost[at]!;
  }

  everywhere(): this {
    this.goOn(-1);
    return this;
  }

  /** True of a point that no hop leads to, nor any from it when backward: looking for it would end nowhere. */
  private isCutOff(at: number): boolean {
    const { cost, lattice, backward } = this;
    if (cost[at] !== CLOSED) return false;
    for (let hop = 0; hop < HOPS; hop += 1) {
      const begin = backward ? at : at - lattice.offset[hop]!;
      if (begin >= 0 && begin < cost.length && lattice.price(begin, hop) !== CLOSED) return false;
    }
    return true;
  }

  /** Until what point `to` costs is final, nothing waits, or it has come to all goals. */
  private goOn(to: number): void {
    const { ahead, cost } = this;
    const { least, footing } = this.lattice;
    let points = 0;
    for (; this.waiting > 0; this.bucket += 1) {
      const leastCost = this.bucket * least;
      if (to >= 0 && cost[to]! < leastCost) return;
      if (ahead && this.bucket % BUCKETS_A_LOOK === 0 && ahead.isPast(leastCost, footing.grid)) return;
      points += this.empty();
      if (points < POINTS_A_PULSE) continue;
      points = 0;
      pulse();
    }
  }

  /** Goes on from all points of the lowest bucket, and says how many those were. */
  private empty(): number {
    const { ahead, cost, next, before, head } = this;
    const lowest = this.bucket & (head.length - 1);
    let points = 0;
    for (let at = head[lowest]!; at >= 0; at = head[lowest]!) {
      const after = next[at]!;
      head[lowest] = after;
      if (after >= 0) before[after] = ~lowest;
      this.waiting -= 1;
      const soFar = cost[at]!;
      if (ahead !== null && !ahead.isOnTheWay(at, soFar)) continue;
      points += 1;
      this.from(at, soFar);
    }
    return points;
  }

  /** Along every hop from a point or, backward, against every hop to it. */
  private from(at: number, soFar: number): void {
    const { cost, hop, beside, shift, origins, lattice } = this;
    const { hops, worked } = lattice;
    // Imported constants are looked up at every use by some loaders; in these loops that is half the time.
    const [each, closed] = [HOPS, CLOSED];
    for (let k = 0; k < origins.length; k += 1) {
      const origin = at + origins[k]!;
      if (origin >= 0 && origin < worked.length && worked[origin] === 0) lattice.workOut(origin);
    }
    for (let k = 0; k < each; k += 1) {
      const other = at + beside[k]!;
      if (other < 0 || other >= worked.length) continue;
      const price = hops[at * each + shift[k]!]!;
      if (price === closed) continue;
      const total = soFar + price;
      if (total >= cost[other]!) continue;
      hop[other] = k;
      this.enter(other, total);
    }
  }

  /** Lets a point wait at a lower cost than was known. */
  private enter(at: number, total: number): void {
    const { cost, next, before } = this;
    const bucket = (total / this.lattice.least) | 0;
    if (bucket - this.bucket >= this.head.length) this.widen(bucket);
    const { head } = this;
    if (cost[at] === CLOSED) this.waiting += 1;
    else {
      const [was, after] = [before[at]!, next[at]!];
      if (was >= 0) next[was] = after;
      else head[~was] = after;
      if (after >= 0) before[after] = was;
    }
    cost[at] = total;
    const place = bucket & (head.length - 1);
    const after = head[place]!;
    head[place] = at;
    next[at] = after;
    before[at] = ~place;
    if (after >= 0) before[after] = at;
  }

  /** Makes the ring wide enough for a bucket. */
  private widen(bucket: number): void {
    const { head, before } = this;
    let length = head.length;
    while (bucket - this.bucket >= length) length *= 2;
    const wide = new Int32Array(length).fill(-1);
    for (let b = this.bucket; b < this.bucket + head.length; b += 1) {
      const first = head[b & (head.length - 1)]!;
      const place = b & (length - 1);
      wide[place] = first;
      if (first >= 0) before[first] = ~place;
    }
    this.head = wide;
  }
}
