import { type Bounds, LIST, reasonOf } from "./bounds.ts";

/**
 * Time-table propagation of one resource with explanations for a single moment (Schutt, Feydy, Stuckey & Wallace
 * 2011, "Explaining the cumulative propagator"): an activity surely runs from its latest start to its earliest end;
 * where these sure parts leave too little for another activity, that activity has to move out of the way.
 */
export class Timetable {
  readonly users: Int32Array;
  readonly #bounds: Bounds;
  readonly #capacity: number;
  readonly #length: Int32Array;
  readonly #demand: Int32Array;
  /** The sure part of each user as of the latest profile; empty where from >= until. */
  readonly #from: Int32Array;
  readonly #until: Int32Array;
  /** 1 for users that may have to be pushed though the profile is the same. */
  readonly #moved: Uint8Array;
  /** False when the latest call ended in a failure, so that its work has to be done again. */
  #finished = false;
  /** Users by the begin and by the end of their sure part, kept nearly sorted from call to call. */
  readonly #byFrom: Int32Array;
  readonly #byUntil: Int32Array;
  /** The profile: `#steps` stretches, each from its instant to the next one's, with the sure use in it. */
  #steps = 0;
  #peak = 0;
  readonly #at: Int32Array;
  readonly #use: Int32Array;

  /** `users` are variables with their `length` and `demand`, one after the other. */
  constructor(bounds: Bounds, capacity: number, users: Int32Array, length: Int32Array, demand: Int32Array) {
    this.users = users;
    this.#bounds = bounds;
    this.#capacity = capacity;
    this.#length = length;
    this.#demand = demand;
    this.#from = new Int32Array(users.length);
    this.#until = new Int32Array(users.length);
    this.#moved = new Uint8Array(users.length);
    this.#byFrom = Int32Array.from(users.keys());
    this.#byUntil = Int32Array.from(users.keys());
    this.#at = new Int32Array(2 * users.length + 1);
    this.#use = new Int32Array(2 * users.length + 1);
  }

  /** Profile, overload test, and every user pushed out of the way. False on failure. */
  propagate(): boolean {
    const anew = this.#read() || !this.#finished;
    this.#finished = false;
    if (anew && !this.#profile()) return false;
    const { low } = this.#bounds;
    const slack = this.#capacity - this.#peak;
    for (let u = 0; u < this.users.length; u += 1) {
      if (this.#demand[u]! <= slack || (!anew && this.#moved[u] === 0)) continue;
      const x = this.users[u]!;
      const before = this.#bounds.entries;
      if (low[2 * x]! !== -low[2 * x + 1]! && !(this.#pushLater(u, x) && this.#pushEarlier(u, x)))
        return false;
      // A pushed user has to be pushed again should it ever come back to where it was.
      this.#moved[u] = this.#bounds.entries > before ? 1 : 0;
    }
    this.#finished = true;
    return true;
  }

  /** Reads the sure parts off the bounds and marks whose have moved; true when the profile is not what it was. */
  #read(): boolean {
    const { low } = this.#bounds;
    let differs = false;
    for (let u = 0; u < this.users.length; u += 1) {
      const x = this.users[u]!;
      const from = -low[2 * x + 1]!;
      const until = low[2 * x]! + this.#length[u]!;
      if (from === this.#from[u]! && until === this.#until[u]!) continue;
      if (from < until || this.#from[u]! < this.#until[u]!) differs = true;
      this.#from[u] = from;
      this.#until[u] = until;
      this.#moved[u] = 1;
    }
    return differs;
  }

  #profile(): boolean {
    const from = this.#from;
    const until = this.#until;
    const count = this.users.length;
    sortNearly(this.#byFrom, from);
    sortNearly(this.#byUntil, until);
    let steps = 0;
    let peak = 0;
    let use = 0;
    let next = 0;
    let ending = 0;
    for (;;) {
      next = this.#skipUnsure(this.#byFrom, next);
      ending = this.#skipUnsure(this.#byUntil, ending);
      if (ending === count) break;
      // What ends at an instant is free for what begins at it.
      const begins = next < count && from[this.#byFrom[next]!]! < until[this.#byUntil[ending]!]!;
      const u = begins ? this.#byFrom[next++]! : this.#byUntil[ending++]!;
      const instant = begins ? from[u]! : until[u]!;
      use += begins ? this.#demand[u]! : -this.#demand[u]!;
      steps = this.#noteStep(steps, instant, use);
      if (use <= peak) continue;
      peak = use;
      if (use > this.#capacity) return this.#overload(instant);
    }
    this.#steps = steps;
    this.#peak = peak;
    return true;
  }

  /** Writes that `use` is in use from `instant` on behind the first `steps` steps of the profile; gives how many there are now. */
  #noteStep(steps: number, instant: number, use: number): number {
    const count = steps > 0 && this.#at[steps - 1] === instant ? steps : steps + 1;
    this.#at[count - 1] = instant;
    this.#use[count - 1] = use;
    return count;
  }

  /** The first place in `order` from `at` on of a user with a sure part. */
  #skipUnsure(order: Int32Array, at: number): number {
    let k = at;
    while (k < order.length && this.#from[order[k]!]! >= this.#until[order[k]!]!) k += 1;
    return k;
  }

  #overload(instant: number): false {
    const ref = this.#bounds.openList(2 * this.users.length);
    this.#explain(ref, instant, -1, 0);
    return this.#bounds.fail(ref);
  }

  #pushLater(u: number, x: number): boolean {
    const bounds = this.#bounds;
    const { low } = bounds;
    const length = this.#length[u]!;
    const most = this.#capacity - this.#demand[u]!;
    let step = this.#stepAt(low[2 * x]!);
    for (; step + 1 < this.#steps && this.#at[step]! < low[2 * x]! + length; step += 1) {
      if (this.#use[step]! <= most || this.#runsSurely(u, this.#at[step]!)) continue;
      const end = this.#at[step + 1]!;
      while (low[2 * x]! < end) {
        const later = Math.min(end, low[2 * x]! + length);
        const ref = bounds.openList(2 * this.users.length + 1);
        bounds.addToList(ref, 2 * x, later - length);
        this.#explain(ref, later - 1, u, this.#demand[u]!);
        if (!bounds.raise(2 * x, later, reasonOf(LIST, ref))) return false;
      }
    }
    return true;
  }

  #pushEarlier(u: number, x: number): boolean {
    const bounds = this.#bounds;
    const { low } = bounds;
    const length = this.#length[u]!;
    const most = this.#capacity - this.#demand[u]!;
    let step = this.#stepAt(length - low[2 * x + 1]! - 1);
    for (; step >= 0 && (step + 1 === this.#steps || this.#at[step + 1]! > -low[2 * x + 1]!); step -= 1) {
      if (this.#use[step]! <= most || this.#runsSurely(u, this.#at[step]!)) continue;
      const begin = this.#at[step]!;
      while (length - low[2 * x + 1]! > begin) {
        const instant = Math.max(begin, -low[2 * x + 1]!);
        const ref = bounds.openList(2 * this.users.length + 1);
        bounds.addToList(ref, 2 * x + 1, -instant);
        this.#explain(ref, instant, u, this.#demand[u]!);
        if (!bounds.raise(2 * x + 1, length - instant, reasonOf(LIST, ref))) return false;
      }
    }
    return true;
  }

  #runsSurely(u: number, instant: number): boolean {
    return this.#from[u]! <= instant && instant < this.#until[u]!;
  }

  /** The last step that begins at or before `instant`; 0 when none does. */
  #stepAt(instant: number): number {
    let least = 0;
    let most = this.#steps - 1;
    while (least < most) {
      const middle = (least + most + 1) >> 1;
      if (this.#at[middle]! <= instant) least = middle;
      else most = middle - 1;
    }
    return least;
  }

  /** Adds why the resource has no room for `demand` more at `instant`: as few sure parts as will do, not that of `but`. */
  #explain(ref: number, instant: number, but: number, demand: number): void {
    let spare = demand - this.#capacity - 1;
    for (let u = 0; u < this.users.length; u += 1) {
      if (u !== but && this.#runsSurely(u, instant)) spare += this.#demand[u]!;
    }
    for (let u = 0; u < this.users.length; u += 1) {
      if (u === but || !this.#runsSurely(u, instant)) continue;
      if (this.#demand[u]! <= spare) {
        spare -= this.#demand[u]!;
        continue;
      }
      const x = this.users[u]!;
      this.#bounds.addToList(ref, 2 * x, instant + 1 - this.#length[u]!);
      this.#bounds.addToList(ref, 2 * x + 1, -instant);
    }
  }
}

/** Insertion sort of `order` by `key`: quick when little has changed since the last time. */
function sortNearly(order: Int32Array, key: Int32Array): void {
  for (let k = 1; k < order.length; k += 1) {
    const one = order[k]!;
    const value = key[one]!;
    let at = k - 1;
    while (at >= 0 && key[order[at]!]! > value) {
      order[at + 1] = order[at]!;
      at -= 1;
    }
    order[at + 1] = one;
  }
}
