import type { Random } from "../../kernel/index.ts";
import type { TourGround } from "./ground.ts";
import { sortBy } from "./sortby.ts";
import type { Tours } from "./tours.ts";

/** Part of the added way in the cost of a place. */
const WAY_SHARE = 0.25;
/** A place is overlooked with this probability (Christiaens & Vanden Berghe 2020, Transp Sci 54:417). */
const BLINK = 0.01;

/**
 * Puts left-out activities back on tours, one after the other in a noisy order of one of several kinds, each where it costs least.
 *
 * What was left out fitted nowhere before something was taken off, so that it is looked for in the gaps alone that this widened; and what
 * fits nowhere then does not once more is put on. So all are looked at once, and again only where a route changed before their turn came.
 */
export class Refill {
  private readonly tours: Tours;
  private readonly ground: TourGround;
  private readonly random: Random;
  private readonly value: Float64Array;
  private readonly roomS: Float64Array;
  /** What fits somewhere, in the order in which it is put on, and the keys of that order by activity. */
  private readonly order: Int32Array;
  private readonly key: Float64Array;
  private count = 0;
  /** What was left out before and still is, in order of opening; 1 for what of it fits. */
  private readonly left: Int32Array;
  private readonly fits: Uint8Array;
  private lefts = 0;
  /** Routes that something was taken off. */
  private readonly opened: Int32Array;
  private opens = 0;
  /** By activity and route: cost of its best place there, Infinity for none, the place before it, and `changes` when it was found. */
  private readonly cost: Float64Array;
  private readonly place: Int32Array;
  private readonly foundAt: Int32Array;
  /** By route: activities put on it in this fill. */
  private readonly changes: Int32Array;
  /** Places until the next one is overlooked. */
  private untilBlink = 0;

  /** `value` of each activity says which comes first. */
  constructor(tours: Tours, random: Random, value: Float64Array) {
    const { size, routes, fromS, toS } = tours.ground;
    this.tours = tours;
    this.ground = tours.ground;
    this.random = random;
    this.value = value;
    this.roomS = Float64Array.from(toS, (to, a) => to - fromS[a]!);
    this.order = new Int32Array(size);
    this.key = new Float64Array(size);
    this.left = new Int32Array(size);
    this.fits = new Uint8Array(size);
    this.opened = new Int32Array(routes);
    this.cost = new Float64Array(size * routes);
    this.place = new Int32Array(size * routes);
    this.foundAt = new Int32Array(size * routes);
    this.changes = new Int32Array(routes);
  }

  /**
   * Fills the routes marked in `open`, where gaps were widened; what is marked in `taken` may go on the others too. Marks in `open` the
   * routes that it changes. `first` comes first.
   */
  fill(open: Uint8Array, taken: Uint8Array, first = -1): void {
    const { ground, tours, order, changes } = this;
    changes.fill(0);
    this.opens = 0;
    for (let r = 0; r < ground.routes; r += 1) if (open[r] === 1) this.opened[this.opens++] = r;
    this.collect(taken);
    for (let k = 0; k < this.opens; k += 1) this.lookInGaps(this.opened[k]!);
    for (let k = 0; k < this.lefts; k += 1)
      if (this.fits[this.left[k]!] === 1) order[this.count++] = this.left[k]!;
    this.rank(first);
    sortBy(order, this.key, this.count);
    for (let k = 0; k < this.count; k += 1) {
      const a = order[k]!;
      const r = this.bestRoute(a, taken[a] === 1);
      if (r < 0) continue;
      tours.insert(a, r, this.place[a * ground.routes + r]!);
      open[r] = 1;
      changes[r]! += 1;
    }
  }

  /** Parts what is left out: what was taken off and fits anywhere goes into `order`, the rest into `left`. */
  private collect(taken: Uint8Array): void {
    const { ground, order, left, fits } = this;
    const { routeOf } = this.tours;
    const { possible, routes } = ground;
    this.count = 0;
    this.lefts = 0;
    for (let k = 0; k < possible.length; k += 1) {
      const a = possible[k]!;
      if (routeOf[a]! >= 0) continue;
      if (taken[a] === 0) {
        left[this.lefts++] = a;
        fits[a] = 0;
        continue;
      }
      let isPossible = false;
      for (let r = 0; r < routes; r += 1) if (this.lookAll(a, r)) isPossible = true;
      if (isPossible) order[this.count++] = a;
    }
  }

  /** Looks in the widened gaps of route `r` for places for what was left out; marks in `fits` what has one. */
  private lookInGaps(r: number): void {
    const { ground, tours, left, lefts } = this;
    const { routes, fromS, allows } = ground;
    const { latest, width } = tours;
    const last = r * width + tours.lastGap[r]!;
    let k = r * width + tours.firstGap[r]!;
    for (let i = 0; i < lefts; i += 1) {
      const a = left[i]!;
      // Both what is left out and the gaps are in order of time.
      while (k <= last && latest[k + 1]! < fromS[a]!) k += 1;
      this.cost[a * routes + r] = Infinity;
      this.foundAt[a * routes + r] = 0;
      if (allows[a * routes + r] === 1 && this.scan(a, r, k, last)) this.fits[a] = 1;
    }
  }

  /** Looks in all gaps of route `r` for a place for `a`; false where there is none. */
  private lookAll(a: number, r: number): boolean {
    const { width, length } = this.tours;
    const at = a * this.ground.routes + r;
    this.cost[at] = Infinity;
    this.foundAt[at] = this.changes[r]!;
    return this.ground.allows[at] === 1 && this.scan(a, r, r * width, r * width + length[r]!);
  }

  /** The route on which `a` costs least; -1 where it fits on none. What is put on a route never makes its places cheaper. */
  private bestRoute(a: number, isTaken: boolean): number {
    const { cost, foundAt, changes, opened, tours } = this;
    const { routes } = this.ground;
    const count = isTaken ? routes : this.opens;
    for (;;) {
      let best = -1;
      let least = Infinity;
      for (let k = 0; k < count; k += 1) {
        const r = isTaken ? k : opened[k]!;
        if (cost[a * routes + r]! >= least) continue;
        least = cost[a * routes + r]!;
        best = r;
      }
      if (best < 0 || foundAt[a * routes + best] === changes[best]) return best;
      if (isTaken) {
        this.lookAll(a, best);
        continue;
      }
      const first = best * tours.width;
      foundAt[a * routes + best] = changes[best]!;
      this.scan(a, best, first + tours.firstGap[best]!, first + tours.lastGap[best]!);
    }
  }

  /** Works the order out in which what fits is put on, low keys first: by worth, any, by worth for its length and room, by room. */
  private rank(first: number): void {
    const { order, key, random } = this;
    const { lengthS } = this.ground.problem;
    const mode = random.next();
    for (let k = 0; k < this.count; k += 1) {
      const a = order[k]!;
      const noise = random.next();
      if (a === first) {
        key[a] = -Infinity;
        continue;
      }
      const value = this.value[a]! + 1e-3;
      const roomS = this.roomS[a]!;
      if (mode < 0.4) key[a] = -value * (0.6 + 0.8 * noise);
      else if (mode < 0.6) key[a] = noise;
      else if (mode < 0.8) key[a] = (-value * value * (0.7 + 0.6 * noise)) / (lengthS[a]! + 1 + roomS * 0.1);
      else key[a] = roomS * (0.5 + noise);
    }
  }

  /** Looks for the cheapest place for `a` in the gaps `k` to `last` of the row of all routes, on route `r`; false where there is none. */
  // eslint-disable-next-line sonarjs/cognitive-complexity -- the innermost loop
  private scan(a: number, r: number, k: number, last: number): boolean {
    const { tours, ground } = this;
    const { node, earliest, latest } = tours;
    const { size, isPlain } = ground;
    const go = ground.goS[r]!;
    const come = ground.comeS[r]!;
    const lasts = ground.lastsS[r]!;
    const own = lasts[a]!;
    const row = a * size;
    const fromS = ground.fromS[a]!;
    const toS = ground.toS[a]!;
    let best = Infinity;
    let bestPlace = 0;
    while (k <= last && latest[k + 1]! < fromS) k += 1;
    for (; k <= last; k += 1) {
      const goesS = earliest[k]!;
      if (goesS > toS) break;
      const before = node[k]!;
      const after = node[k + 1]!;
      const intoS = come[row + before]!;
      const onS = go[row + after]!;
      let startS = goesS + lasts[before]! + intoS;
      if (startS < fromS) startS = fromS;
      const byS = latest[k + 1]!;
      if (startS + own + onS > byS || startS > toS) continue;
      if (isPlain[a] === 0) startS = tours.startFrom(a, startS);
      const arrivesS = startS + own + onS;
      if (startS > toS || arrivesS > byS) continue;
      const laterS = arrivesS > earliest[k + 1]! ? arrivesS - earliest[k + 1]! : 0;
      const cost = laterS + WAY_SHARE * (intoS + onS - go[before * size + after]!);
      if (cost >= best || this.isOverlooked()) continue;
      best = cost;
      bestPlace = k;
    }
    const at = a * ground.routes + r;
    this.cost[at] = best;
    this.place[at] = bestPlace - r * tours.width;
    return best < Infinity;
  }

  /** True now and then: how many places there are between is drawn, not each of them. */
  private isOverlooked(): boolean {
    this.untilBlink -= 1;
    if (this.untilBlink >= 0) return false;
    this.untilBlink = Math.floor(Math.log(1 - this.random.next()) / Math.log(1 - BLINK));
    return true;
  }
}
