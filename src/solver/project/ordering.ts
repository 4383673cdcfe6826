import { adjacency, type Adjacency, orderOf } from "./network.ts";
import type { Project } from "./problem.ts";

/**
 * Sorts activities by a key, earlier ones of the lag network first among equals. Where an edge would point backward,
 * its head is put off until its tail has come.
 */
export class Ordering {
  readonly #activities: number;
  readonly #byRank: Int32Array;
  readonly #rank: Int32Array;
  readonly #keys: Float64Array;
  readonly #out: Adjacency;
  readonly #from: Int32Array;
  readonly #to: Int32Array;
  readonly #place: Int32Array;
  readonly #waiting: Int32Array;
  readonly #entering: Int32Array;

  /** For a project whose lags go in no circles; null otherwise. */
  static of(project: Project): Ordering | null {
    const order = orderOf(project);
    return order ? new Ordering(project, order) : null;
  }

  private constructor(project: Project, order: Int32Array) {
    const { activities, lagFrom, lagTo } = project;
    this.#activities = activities;
    this.#byRank = order;
    this.#rank = new Int32Array(activities);
    order.forEach((a, rank) => (this.#rank[a] = rank));
    this.#keys = new Float64Array(activities);
    this.#out = adjacency(activities, lagFrom);
    this.#from = lagFrom;
    this.#to = lagTo;
    this.#place = new Int32Array(activities);
    this.#waiting = new Int32Array(activities);
    this.#entering = new Int32Array(activities);
    for (const to of lagTo) this.#entering[to]! += 1;
  }

  /** Fills `order` by ascending `key` (whole numbers). */
  sort(key: Int32Array, order: Int32Array): void {
    const n = this.#activities;
    for (let a = 0; a < n; a += 1) this.#keys[a] = key[a]! * n + this.#rank[a]!;
    this.#keys.sort();
    for (let k = 0; k < n; k += 1) {
      const packed = this.#keys[k]!;
      order[k] = this.#byRank[packed - Math.floor(packed / n) * n]!;
    }
    if (this.#isBroken(order)) this.#mend(order);
  }

  /** Lowers keys so that no activity's is above that of one that waits for it. */
  pull(key: Int32Array): void {
    const { start, list } = this.#out;
    for (let k = this.#activities - 1; k >= 0; k -= 1) {
      const a = this.#byRank[k]!;
      for (let e = start[a]!; e < start[a + 1]!; e += 1) {
        const least = key[this.#to[list[e]!]!]!;
        if (least < key[a]!) key[a] = least;
      }
    }
  }

  /** True when an edge leads from `a` to `b`. */
  waits(a: number, b: number): boolean {
    for (let e = this.#out.start[a]!; e < this.#out.start[a + 1]!; e += 1) {
      if (this.#to[this.#out.list[e]!] === b) return true;
    }
    return false;
  }

  #isBroken(order: Int32Array): boolean {
    const place = this.#place;
    for (let k = 0; k < order.length; k += 1) place[order[k]!] = k;
    for (let e = 0; e < this.#to.length; e += 1) {
      if (place[this.#from[e]!]! > place[this.#to[e]!]!) return true;
    }
    return false;
  }

  /** The same order with every activity put off until those it waits for have come. */
  #mend(order: Int32Array): void {
    const n = this.#activities;
    const waits = this.#waiting;
    waits.set(this.#entering);
    const sorted = order.slice();
    const taken = new Uint8Array(n);
    let filled = 0;
    let from = 0;
    while (filled < n) {
      while (taken[from] === 1) from += 1;
      let k = from;
      while (taken[k] === 1 || waits[sorted[k]!]! > 0) k += 1;
      taken[k] = 1;
      const a = sorted[k]!;
      order[filled++] = a;
      for (let e = this.#out.start[a]!; e < this.#out.start[a + 1]!; e += 1) {
        waits[this.#to[this.#out.list[e]!]!]! -= 1;
      }
    }
  }
}
