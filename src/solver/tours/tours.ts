import { gridFrom, gridTo } from "../../kernel/index.ts";
import type { TourGround } from "./ground.ts";

/**
 * Tours: what stands on each route in order, with the earliest and the latest start of each, the lander at both ends. Laid end to end, so that
 * looking for a place is a few additions along two rows.
 */
export class Tours {
  readonly ground: TourGround;
  /** Room of one route. */
  readonly width: number;
  /** By route and place: node, earliest and latest start; place 0 and the one behind the last activity are the lander. */
  readonly node: Int32Array;
  readonly earliest: Int32Array;
  readonly latest: Int32Array;
  /** By route: activities on it. */
  readonly length: Int32Array;
  /** By route: first and last gap (the place before it) that was widened by what was taken off; none where the last is before the first. */
  readonly firstGap: Int32Array;
  readonly lastGap: Int32Array;
  /** By activity: its route, -1 where it is left out. */
  readonly routeOf: Int32Array;
  private readonly gridS: number;

  constructor(ground: TourGround) {
    const { routes, size, lander } = ground;
    this.ground = ground;
    this.width = size + 1;
    this.node = new Int32Array(routes * this.width).fill(lander);
    this.earliest = new Int32Array(routes * this.width);
    this.latest = new Int32Array(routes * this.width);
    this.length = new Int32Array(routes);
    this.firstGap = new Int32Array(routes);
    this.lastGap = new Int32Array(routes);
    this.routeOf = new Int32Array(size).fill(-1);
    this.gridS = ground.problem.gridS;
    for (let r = 0; r < routes; r += 1) this.retime(r);
  }

  /** The first start of `a` at or after `atS` that may be chosen; after its last one where there is none. */
  startFrom(a: number, atS: number): number {
    const { fromS, toS, isPlain, problem } = this.ground;
    if (atS <= fromS[a]!) return fromS[a]!;
    if (isPlain[a] === 1) return atS;
    const { openStart, openFromS, openToS } = problem;
    for (let k = openStart[a]!; k < openStart[a + 1]!; k += 1)
      if (atS <= openToS[k]!) return atS > openFromS[k]! ? gridFrom(atS, this.gridS) : openFromS[k]!;
    return toS[a]! + 1;
  }

  /** The last start of `a` at or before `atS` that may be chosen; before its first one where there is none. */
  private startBy(a: number, atS: number): number {
    const { fromS, toS, isPlain, problem } = this.ground;
    if (atS >= toS[a]!) return toS[a]!;
    if (isPlain[a] === 1) return atS;
    const { openStart, openFromS, openToS } = problem;
    for (let k = openStart[a + 1]! - 1; k >= openStart[a]!; k -= 1)
      if (atS >= openFromS[k]!) return atS < openToS[k]! ? gridTo(atS, this.gridS) : openToS[k]!;
    return fromS[a]! - 1;
  }

  /** Works all times of route `r` out; all its gaps are wide. */
  private retime(r: number): void {
    const { ground, earliest, latest, width } = this;
    const first = r * width;
    const last = first + this.length[r]! + 1;
    earliest[first] = ground.outS[r]!;
    latest[last] = ground.backByS[r]!;
    for (let k = first + 1; k <= last; k += 1) earliest[k] = this.soonestAt(r, k, last);
    for (let k = last - 1; k >= first; k -= 1) latest[k] = this.lastAt(r, k, first);
    this.firstGap[r] = 0;
    this.lastGap[r] = this.length[r]!;
  }

  /** The earliest start at place `k` behind that of the place before it. */
  private soonestAt(r: number, k: number, last: number): number {
    const { node, earliest, ground } = this;
    const before = node[k - 1]!;
    const a = node[k]!;
    const atS = earliest[k - 1]! + ground.lastsS[r]![before]! + ground.goS[r]![before * ground.size + a]!;
    return k === last ? atS : this.startFrom(a, atS);
  }

  /** The latest start at place `k` before that of the place behind it. */
  private lastAt(r: number, k: number, first: number): number {
    const { node, latest, ground } = this;
    const a = node[k]!;
    const byS = latest[k + 1]! - ground.lastsS[r]![a]! - ground.goS[r]![a * ground.size + node[k + 1]!]!;
    return k === first ? byS : this.startBy(a, byS);
  }

  /** Puts `a` on route `r` behind place `k`, where it fits. */
  insert(a: number, r: number, k: number): void {
    const { node, earliest, latest, width } = this;
    const first = r * width;
    const at = first + k + 1;
    this.length[r]! += 1;
    const last = first + this.length[r]! + 1;
    for (let j = last; j > at; j -= 1) {
      node[j] = node[j - 1]!;
      earliest[j] = earliest[j - 1]!;
      latest[j] = latest[j - 1]!;
    }
    node[at] = a;
    this.routeOf[a] = r;
    if (k < this.firstGap[r]!) this.firstGap[r]! += 1;
    if (k <= this.lastGap[r]!) this.lastGap[r]! += 1;
    earliest[at] = this.soonestAt(r, at, last);
    latest[at] = this.lastAt(r, at, first);
    this.raiseFrom(r, at + 1, last);
    this.lowerFrom(r, at - 1, first);
  }

  /** Takes `count` activities from place `k` on off route `r`, and notes which gaps that widens. */
  cut(r: number, k: number, count: number): void {
    const { node, earliest, latest, width } = this;
    const first = r * width;
    for (let j = first + k; j < first + k + count; j += 1) this.routeOf[node[j]!] = -1;
    this.length[r]! -= count;
    const last = first + this.length[r]! + 1;
    for (let j = first + k; j <= last; j += 1) {
      node[j] = node[j + count]!;
      earliest[j] = earliest[j + count]!;
      latest[j] = latest[j + count]!;
    }
    this.lastGap[r] = Math.min(this.raiseFrom(r, first + k, last) - 1 - first, this.length[r]!);
    this.firstGap[r] = Math.max(this.lowerFrom(r, first + k - 1, first) - first, 0);
  }

  /** Works earliest starts out from place `k` on, as far as they change; gives the place after the last one that did. */
  private raiseFrom(r: number, k: number, last: number): number {
    const { earliest } = this;
    for (; k <= last; k += 1) {
      const startS = this.soonestAt(r, k, last);
      if (startS === earliest[k]) break;
      earliest[k] = startS;
    }
    return k;
  }

  /** Works latest starts out from place `k` back, as far as they change; gives the place before the last one that did. */
  private lowerFrom(r: number, k: number, first: number): number {
    const { latest } = this;
    for (; k >= first; k -= 1) {
      const startS = this.lastAt(r, k, first);
      if (startS === latest[k]) break;
      latest[k] = startS;
    }
    return k;
  }

  /** Takes over the routes of `other` that are marked in `open`; what stands on them there stands on no other route here. */
  takeOver(other: Tours, open: Uint8Array): void {
    for (let r = 0; r < open.length; r += 1) if (open[r] === 1) this.leaveOut(r);
    for (let r = 0; r < open.length; r += 1) if (open[r] === 1) this.copyRoute(other, r);
  }

  /** Takes everything off, times not worked out. */
  clear(): void {
    for (let r = 0; r < this.ground.routes; r += 1) {
      this.leaveOut(r);
      this.length[r] = 0;
    }
  }

  /** Puts `activities` on route `r` with nothing on it, in their order, and works its times out. */
  lay(r: number, activities: ArrayLike<number>): void {
    const { node, width, ground, routeOf } = this;
    const first = r * width;
    node.set(activities, first + 1);
    node[first + activities.length + 1] = ground.lander;
    for (let k = 0; k < activities.length; k += 1) routeOf[activities[k]!] = r;
    this.length[r] = activities.length;
    this.retime(r);
  }

  private copyRoute(other: Tours, r: number): void {
    const { node, earliest, latest, width, routeOf } = this;
    const first = r * width;
    const end = first + other.length[r]! + 2;
    this.length[r] = other.length[r]!;
    for (let k = first; k < end; k += 1) {
      node[k] = other.node[k]!;
      earliest[k] = other.earliest[k]!;
      latest[k] = other.latest[k]!;
      routeOf[node[k]!] = r;
    }
  }

  private leaveOut(r: number): void {
    const { node, width, routeOf } = this;
    const first = r * width;
    for (let k = first + this.length[r]!; k > first; k -= 1) routeOf[node[k]!] = -1;
  }
}
