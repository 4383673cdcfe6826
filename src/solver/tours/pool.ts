import { random } from "../../kernel/index.ts";
import type { TourGround } from "./ground.ts";
import type { Tours } from "./tours.ts";

/** Routes kept by class; when there are more, the half seen in the poorest days goes. */
const KEPT = 4000;
/** Steps of one recombination before it makes do with what it has. */
const MOST_STEPS = 20_000;
/** Steps towards better prices in one recombination, and how much shorter each is. */
const PRICE_STEPS = 8;
const SHORTER = 0.85;

/** A route seen in a good day. */
interface Seen {
  readonly activities: Int32Array;
  readonly bits: Int32Array;
  readonly worth: number;
  /** Worth of the best day it was seen in. */
  day: number;
  /** Worth above the prices of its activities. */
  reduced: number;
}

interface ClassOfRoutes {
  readonly routes: readonly number[];
  seen: Map<number, Seen>;
  list: Seen[];
  /** As many of the list as there are routes, those worth most above the prices. */
  readonly top: Seen[];
}

/**
 * Good routes from all over the search, put together anew: the set of routes, one for each crew member on each EVA and none with an activity
 * of another, that is worth most (set packing over found routes: Rochat & Taillard 1995, J Heuristics 1:147). Prices of activities say which
 * routes can be in such a set at all (Held & Karp 1971, Math Program 1:6): what all prices and the best routes above them sum to is the most
 * that any set is worth.
 */
export class Pool {
  private readonly value: Float64Array;
  private readonly words: number;
  private readonly classes: readonly ClassOfRoutes[];
  private readonly markOne: Int32Array;
  private readonly markTwo: Int32Array;
  private readonly price: Float64Array;
  private readonly use: Float64Array;
  private steps = 0;
  private bestWorth = 0;
  private best: Seen[] = [];
  private picked: Seen[] = [];
  private roof: number[] = [];
  private priced = 0;

  constructor(ground: TourGround, value: Float64Array) {
    const { size } = ground;
    this.value = value;
    this.words = (size + 31) >> 5;
    this.classes = alikeOn(ground).map((routes) => ({ routes, seen: new Map(), list: [], top: [] }));
    const marks = random(1);
    const mark = (): number => Math.floor(marks.next() * 4294967296) | 0;
    this.markOne = Int32Array.from({ length: size }, mark);
    this.markTwo = Int32Array.from({ length: size }, mark);
    this.price = new Float64Array(size);
    this.use = new Float64Array(size);
  }

  /** Notes the routes marked in `open` of a day worth `day`. */
  note(tours: Tours, open: Uint8Array, day: number): void {
    for (const one of this.classes)
      for (const r of one.routes) if (open[r]! > 0) this.noteRoute(one, tours, r, day);
  }

  private noteRoute(one: ClassOfRoutes, tours: Tours, r: number, day: number): void {
    const { node, width, length } = tours;
    const first = r * width + 1;
    const end = first + length[r]!;
    let hash = 0;
    let more = 0;
    for (let k = first; k < end; k += 1) {
      hash ^= this.markOne[node[k]!]!;
      more ^= this.markTwo[node[k]!]!;
    }
    const key = (hash >>> 0) * 2097152 + (more >>> 11);
    const known = one.seen.get(key);
    if (known) {
      if (known.day < day) known.day = day;
      return;
    }
    const activities = node.slice(first, end);
    const bits = new Int32Array(this.words);
    let worth = 0;
    for (const a of activities) {
      bits[a >> 5]! |= 1 << (a & 31);
      worth += this.value[a]!;
    }
    one.seen.set(key, { activities, bits, worth, day, reduced: 0 });
    if (one.seen.size > KEPT) forget(one);
  }

  /** The routes that are together worth more than `worth`, by route the activities in order; null when none were found in time. */
  recombine(worth: number): ReadonlyMap<number, Int32Array> | null {
    for (const one of this.classes) one.list = [...one.seen.values()];
    this.findPrices(worth);
    this.steps = 0;
    this.bestWorth = worth;
    this.best = [];
    this.picked = [];
    this.pick(0, 0, this.classes[0]?.routes.length ?? 0, new Int32Array(this.words), this.priced);
    if (this.best.length === 0) return null;
    const made = new Map<number, Int32Array>();
    let k = 0;
    for (const { routes } of this.classes)
      for (const r of routes) {
        made.set(r, this.best[k]?.activities ?? new Int32Array(0));
        k += 1;
      }
    return made;
  }

  /** Moves the prices towards the least roof, and lists the routes that may be in a set under it, those worth most above the prices first. */
  private findPrices(worth: number): void {
    let step = 1;
    this.reduce();
    for (let k = 0; k < PRICE_STEPS && this.roofOfAll > worth; k += 1) {
      if (!this.movePrices(step * (this.roofOfAll - worth))) break;
      this.reduce();
      step *= SHORTER;
    }
    const over = this.roofOfAll - worth;
    for (const one of this.classes) {
      const least = (one.top.at(-1)?.reduced ?? 0) - over;
      one.list = one.list.filter((route) => route.reduced > least).sort((x, y) => y.reduced - x.reduced);
    }
  }

  /** The most that any set is worth at these prices. */
  private get roofOfAll(): number {
    return this.priced + this.roof[0]!;
  }

  /** Raises the prices of what the best routes have in common, and lowers those of what none has; false where there is neither. */
  private movePrices(by: number): boolean {
    const { price, use, classes } = this;
    use.fill(-1);
    for (const { top } of classes)
      for (const one of top) if (one.reduced > 0) for (const a of one.activities) use[a]! += 1;
    let square = 0;
    for (let a = 0; a < use.length; a += 1) if (use[a]! > 0 || price[a]! > 0) square += use[a]! ** 2;
    if (square === 0) return false;
    for (let a = 0; a < use.length; a += 1) price[a] = Math.max(0, price[a]! + (by / square) * use[a]!);
    return true;
  }

  /** Works out what routes are worth above the prices, the best of each class, and what all classes from one on bring at most. */
  private reduce(): void {
    const { price, classes } = this;
    this.priced = 0;
    for (const p of price) this.priced += p;
    for (let q = classes.length - 1; q >= 0; q -= 1) {
      const { list, top, routes } = classes[q]!;
      top.length = 0;
      for (const one of list) {
        one.reduced = one.worth;
        for (const a of one.activities) one.reduced -= price[a]!;
        keepTop(top, one, routes.length);
      }
      this.roof[q] = top.reduce((sum, one) => sum + Math.max(0, one.reduced), this.roof[q + 1] ?? 0);
    }
  }

  /** Picks the other routes of class `q`, from the `from`th on, `left` of them; what is picked and all prices may still come to `most`. */
  private pick(q: number, from: number, left: number, taken: Int32Array, most: number): void {
    const one = this.classes[q];
    if (!one) {
      const worth = this.picked.reduce((sum, route) => sum + route.worth, 0);
      if (worth > this.bestWorth) {
        this.bestWorth = worth;
        this.best = [...this.picked];
      }
      return;
    }
    if (left === 0) {
      this.pick(q + 1, 0, this.classes[q + 1]?.routes.length ?? 0, taken, most);
      return;
    }
    const beyond = this.roof[q + 1] ?? 0;
    for (let k = from; k < one.list.length; k += 1) {
      const route = one.list[k]!;
      if (most + left * Math.max(0, route.reduced) + beyond <= this.bestWorth + 1e-6) return;
      this.steps += 1;
      if (this.steps > MOST_STEPS) return;
      if (meet(route.bits, taken)) continue;
      const all = taken.slice();
      for (let w = 0; w < all.length; w += 1) all[w]! |= route.bits[w]!;
      this.picked.push(route);
      this.pick(q, k + 1, left - 1, all, most + route.reduced);
      this.picked.pop();
    }
  }
}

/** Puts `one` among the `most` that are worth most above the prices, in their order, if it is one of them. */
function keepTop(top: Seen[], one: Seen, most: number): void {
  if (top.length === most) {
    if (top[most - 1]!.reduced >= one.reduced) return;
    top.pop();
  }
  let at = top.length;
  while (at > 0 && top[at - 1]!.reduced < one.reduced) at -= 1;
  top.splice(at, 0, one);
}

/** Routes that are alike: of one EVA, with the same ways and the same activities. */
function alikeOn({ problem, routes, goS, allows, size }: TourGround): number[][] {
  const classes: number[][] = [];
  const like = (r: number, s: number): boolean => {
    if (problem.evaOfRoute[r] !== problem.evaOfRoute[s] || goS[r] !== goS[s]) return false;
    for (let a = 0; a < size - 1; a += 1) if (allows[a * routes + r] !== allows[a * routes + s]) return false;
    return true;
  };
  for (let r = 0; r < routes; r += 1) {
    const known = classes.find(([s]) => like(r, s!));
    if (known) known.push(r);
    else classes.push([r]);
  }
  return classes;
}

function forget(one: ClassOfRoutes): void {
  const kept = [...one.seen].sort((a, b) => b[1].day - a[1].day).slice(0, KEPT / 2);
  one.seen = new Map(kept);
}

function meet(a: Int32Array, b: Int32Array): boolean {
  for (let w = 0; w < a.length; w += 1) if ((a[w]! & b[w]!) !== 0) return true;
  return false;
}
