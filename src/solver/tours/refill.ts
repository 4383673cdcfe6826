import type { Random } from "../../kernel/index.ts";
import { Followers } from "./followers.ts";
import type { TourGround } from "./ground.ts";
import { sortBy } from "./sortby.ts";
import type { Tours } from "./tours.ts";

/** Part of the added way in the cost of a place. */
const WAY_SHARE = 0.25;
/** A place is overlooked with this probability (Christiaens & Vanden Berghe 2020, Transp Sci 54:417). */
const BLINK = 0.01;
/** Parts of the fills in order of worth, in any, and of worth for length and room; the others go by room. */
const BY_WORTH = 0.6;
const AT_RANDOM = 0.03;
const FOR_LENGTH = 0.34;

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
  /** What was left out before and still is, and 1 for each of it; 1 for what of it fits. */
  private readonly left: Int32Array;
  private readonly isLeft: Uint8Array;
  private readonly fits: Uint8Array;
  private lefts = 0;
  /** Routes that something was taken off. */
  private readonly opened: Int32Array;
  private opens = 0;
  private readonly followers: Followers;
  /** By activity and route: cost of its best place there, Infinity for none, the place before it, and `changes` when it was found. */
  private readonly cost: Float64Array;
  private readonly place: Int32Array;
  private readonly foundAt: Int32Array;
  /** By activity and route: the first and the last place behind which it then fitted; the first is -1 for none. */
  private readonly from: Int32Array;
  private readonly to: Int32Array;
  /** By route: activities put on it in this fill, and behind which places, one after the other. */
  private readonly changes: Int32Array;
  private readonly putBehind: Int32Array;
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
    this.isLeft = new Uint8Array(size);
    this.followers = new Followers(tours.ground);
    this.fits = new Uint8Array(size);
    this.opened = new Int32Array(routes);
    this.cost = new Float64Array(size * routes);
    this.place = new Int32Array(size * routes);
    this.foundAt = new Int32Array(size * routes);
    this.from = new Int32Array(size * routes);
    this.to = new Int32Array(size * routes);
    this.changes = new Int32Array(routes);
    this.putBehind = new Int32Array(size * routes);
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
      const behind = this.place[a * ground.routes + r]!;
      tours.insert(a, r, behind);
      open[r] = 1;
      this.putBehind[r * ground.size + changes[r]!] = behind;
      changes[r]! += 1;
    }
  }

  /** Parts what is left out: what was taken off and fits anywhere goes into `order`, the rest into `left`. */
  private collect(taken: Uint8Array): void {
    const { ground, order, left, isLeft, fits } = this;
    const { routeOf } = this.tours;
    const { possible, routes } = ground;
    this.count = 0;
    this.lefts = 0;
    isLeft.fill(0);
    for (let k = 0; k < possible.length; k += 1) {
      const a = possible[k]!;
      if (routeOf[a]! >= 0) continue;
      if (taken[a] === 0) {
        left[this.lefts++] = a;
        isLeft[a] = 1;
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
    for (let i = 0; i < lefts; i += 1) {
      const at = left[i]! * ground.routes + r;
      this.cost[at] = Infinity;
      this.from[at] = -1;
      this.foundAt[at] = 0;
    }
    for (let k = tours.firstGap[r]!; k <= tours.lastGap[r]!; k += 1) this.lookInGap(r, k);
  }

  /** Looks at what may follow place `k` of route `r` and is done in the time that is left there. */
  // eslint-disable-next-line sonarjs/cognitive-complexity -- the innermost loop
  private lookInGap(r: number, k: number): void {
    const { tours, ground, isLeft, cost } = this;
    const { routes, size, isPlain, fromS, toS, allows } = ground;
    const at = r * tours.width + k;
    const before = tours.node[at]!;
    const leavesS = tours.earliest[at]! + ground.lastsS[r]![before]!;
    const byS = tours.latest[at + 1]!;
    const nextS = tours.earliest[at + 1]!;
    const come = ground.comeS[r]!;
    const row = tours.node[at + 1]! * size;
    const wayS = come[row + before]!;
    const lasts = ground.lastsS[r]!;
    const { activities, doneS } = this.followers.of(r, before);
    const leftS = byS - leavesS;
    for (let i = 0; i < activities.length && doneS[i]! <= leftS; i += 1) {
      const a = activities[i]!;
      if (isLeft[a] === 0) continue;
      const onS = come[row + a]!;
      const own = lasts[a]!;
      let startS = leavesS + doneS[i]! - own;
      if (startS < fromS[a]!) startS = fromS[a]!;
      if (startS + own + onS > byS || startS > toS[a]! || allows[a * routes + r] === 0) continue;
      if (isPlain[a] === 0) startS = tours.startFrom(a, startS);
      const arrivesS = startS + own + onS;
      if (startS > toS[a]! || arrivesS > byS) continue;
      const laterS = arrivesS > nextS ? arrivesS - nextS : 0;
      const costs = laterS + WAY_SHARE * (doneS[i]! - own + onS - wayS);
      const spot = a * routes + r;
      if (this.from[spot]! < 0) this.from[spot] = k;
      this.to[spot] = k;
      if (costs >= cost[spot]! || this.isOverlooked()) continue;
      this.fits[a] = 1;
      cost[spot] = costs;
      this.place[spot] = k;
    }
  }

  /** Looks in all gaps of route `r` for a place for `a`; false where there is none. */
  private lookAll(a: number, r: number): boolean {
    const at = a * this.ground.routes + r;
    this.cost[at] = Infinity;
    this.foundAt[at] = this.changes[r]!;
    return this.ground.allows[at] === 1 && this.scan(a, r, 0, this.tours.length[r]!);
  }

  /** Looks again on route `r`, which changed since, where `a` fitted: nothing that is put on a route makes room on it. */
  private lookAgain(a: number, r: number): void {
    const { ground, changes, putBehind, foundAt } = this;
    const at = a * ground.routes + r;
    let from = this.from[at]!;
    let to = this.to[at]!;
    for (let k = foundAt[at]!; k < changes[r]!; k += 1) {
      const behind = putBehind[r * ground.size + k]!;
      if (behind < from) from += 1;
      if (behind <= to) to += 1;
    }
    foundAt[at] = changes[r]!;
    this.scan(a, r, from, to);
  }

  /** The route on which `a` costs least; -1 where it fits on none. What is put on a route never makes its places cheaper. */
  private bestRoute(a: number, isTaken: boolean): number {
    const { cost, foundAt, changes, opened } = this;
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
      this.lookAgain(a, best);
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
      if (mode < BY_WORTH) key[a] = -value * (0.6 + 0.8 * noise);
      else if (mode < BY_WORTH + AT_RANDOM) key[a] = noise;
      else if (mode < BY_WORTH + AT_RANDOM + FOR_LENGTH)
        key[a] = (-value * value * (0.7 + 0.6 * noise)) / (lengthS[a]! + 1 + roomS * 0.1);
      else key[a] = roomS * (0.5 + noise);
    }
  }

  /** Looks for the cheapest place for `a` behind the places `from` to `to` of route `r`; false where there is none. */
  // eslint-disable-next-line sonarjs/cognitive-complexity -- the innermost loop
  private scan(a: number, r: number, from: number, to: number): boolean {
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
    const first = r * tours.width;
    const last = first + to;
    let best = Infinity;
    let bestPlace = 0;
    let firstPlace = -1;
    let lastPlace = 0;
    let k = first + from;
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
      if (firstPlace < 0) firstPlace = k - first;
      lastPlace = k - first;
      const laterS = arrivesS > earliest[k + 1]! ? arrivesS - earliest[k + 1]! : 0;
      const cost = laterS + WAY_SHARE * (intoS + onS - go[before * size + after]!);
      if (cost >= best || this.isOverlooked()) continue;
      best = cost;
      bestPlace = k - first;
    }
    const at = a * ground.routes + r;
    this.cost[at] = best;
    this.place[at] = bestPlace;
    this.from[at] = firstPlace;
    this.to[at] = lastPlace;
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
