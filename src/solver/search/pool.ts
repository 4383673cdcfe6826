import type { Board } from "../network/board.ts";
import type { Problem } from "../problem/problem.ts";
import { routeClasses } from "../bound/routes.ts";

/** Routes kept; when there are more, the half seen in the poorest days goes. */
const KEPT = 6000;
/** Steps of one recombination before it makes do with what it has. */
const MOST_STEPS = 400_000;

/** A route seen in a good day. */
interface Seen {
  readonly activities: Int32Array;
  readonly bits: Int32Array;
  readonly worth: number;
  /** Worth of the best day it was seen in. */
  day: number;
}

/**
 * Good routes from all over the search, put together anew: the set of routes, one for each crew member on each EVA and none
 * with an activity of another, that is worth most (set packing over found routes: Rochat & Taillard 1995, J Heuristics 1:147). Only
 * where routes do not depend on each other.
 */
export class Pool {
  /** By class of like routes. */
  private readonly seen: Map<string, Seen>[];
  private readonly routesOf: readonly (readonly number[])[];
  private readonly problem: Problem;
  private readonly words: number;
  /** By route the version that was noted last. */
  private readonly noted: Int32Array;
  private steps = 0;
  private bestWorth = 0;
  private best: Seen[] = [];
  private picked: Seen[] = [];
  private lists: { readonly routes: Seen[]; readonly count: number }[] = [];
  private roof: number[] = [];

  constructor(problem: Problem) {
    this.problem = problem;
    this.routesOf = routeClasses(problem).map((one) => one.routes);
    this.seen = this.routesOf.map(() => new Map<string, Seen>());
    this.words = (problem.activities + 31) >> 5;
    this.noted = new Int32Array(problem.routes).fill(-1);
  }

  /** Notes the routes of a day that have changed since the last one. */
  note(board: Board): void {
    this.routesOf.forEach((routes, q) => {
      for (const r of routes) {
        if (board.version[r] === this.noted[r] || board.onRoute[r] === 0) continue;
        this.noted[r] = board.version[r]!;
        this.noteRoute(board, q, r);
      }
    });
  }

  private noteRoute(board: Board, q: number, r: number): void {
    const { problem, words } = this;
    const activities = new Int32Array(board.onRoute[r]!);
    const bits = new Int32Array(words);
    let worth = 0;
    let k = 0;
    for (let s = board.next[board.head + r]!; s < board.head; s = board.next[s]!) {
      const a = board.nodeOf[s]!;
      activities[k] = a;
      k += 1;
      bits[a >> 5]! |= 1 << (a & 31);
      worth += problem.worth[a]!;
    }
    const key = bits.join();
    const known = this.seen[q]!.get(key);
    if (known) known.day = Math.max(known.day, board.worth);
    else this.seen[q]!.set(key, { activities, bits, worth, day: board.worth });
    if (this.seen[q]!.size > KEPT) this.forget(q);
  }

  private forget(q: number): void {
    const kept = [...this.seen[q]!].sort((a, b) => b[1].day - a[1].day).slice(0, KEPT / 2);
    this.seen[q] = new Map(kept);
  }

  /**
   * The routes that are together worth more than `worth`, by route the activities in order; null when there are none, or
   * none was found in time.
   */
  recombine(worth: number): ReadonlyMap<number, Int32Array> | null {
    this.lists = this.seen.map((seen, q) => ({
      routes: [...seen.values()].sort((a, b) => b.worth - a.worth),
      count: this.routesOf[q]!.length,
    }));
    // What the classes from q on can bring at most.
    this.roof = this.lists.map(() => 0);
    for (let q = this.lists.length - 1; q >= 0; q -= 1) {
      const { routes, count } = this.lists[q]!;
      const own = routes.slice(0, count).reduce((sum, one) => sum + one.worth, 0);
      this.roof[q] = own + (this.roof[q + 1] ?? 0);
    }
    this.steps = 0;
    this.bestWorth = worth;
    this.best = [];
    this.picked = [];
    this.pick(0, 0, this.lists[0]?.count ?? 0, new Int32Array(this.words), 0);
    if (this.best.length === 0) return null;
    const made = new Map<number, Int32Array>();
    let k = 0;
    this.routesOf.forEach((routes) => {
      for (const r of routes) {
        made.set(r, this.best[k]?.activities ?? new Int32Array(0));
        k += 1;
      }
    });
    return made;
  }

  /** Picks the other routes of class `q`, from the `from`th on, `left` of them. */
  private pick(q: number, from: number, left: number, taken: Int32Array, worth: number): void {
    const list = this.lists[q];
    if (!list) {
      if (worth > this.bestWorth) {
        this.bestWorth = worth;
        this.best = [...this.picked];
      }
      return;
    }
    if (left === 0) {
      this.pick(q + 1, 0, this.lists[q + 1]?.count ?? 0, taken, worth);
      return;
    }
    const beyond = this.roof[q + 1] ?? 0;
    for (let k = from; k < list.routes.length; k += 1) {
      const one = list.routes[k]!;
      if (worth + left * one.worth + beyond <= this.bestWorth) return;
      this.steps += 1;
      if (this.steps > MOST_STEPS) return;
      if (meet(one.bits, taken)) continue;
      const all = taken.slice();
      for (let w = 0; w < all.length; w += 1) all[w]! |= one.bits[w]!;
      this.picked.push(one);
      this.pick(q, k + 1, left - 1, all, worth + one.worth);
      this.picked.pop();
    }
  }
}

function meet(a: Int32Array, b: Int32Array): boolean {
  for (let w = 0; w < a.length; w += 1) if ((a[w]! & b[w]!) !== 0) return true;
  return false;
}
