import { NEVER } from "../problem/problem.ts";
import { Completion, opensAt } from "./completion.ts";
import type { RouteClass } from "./routes.ts";

/** Labels at most in one round; beyond that the best route stays unknown and the looser bound stands. */
const MOST_LABELS = 1_500_000;
/** Comparisons of labels between two looks at the clock. */
const BURST = 40_000;

/** A route found: its nodes in order, cycles included, and its gain in prices. */
export interface FoundRoute {
  readonly nodes: readonly number[];
  readonly gain: number;
}

export interface Pricing {
  /** No route gains more than this. */
  readonly most: number;
  readonly found: readonly FoundRoute[];
}

/**
 * The best route at given prices, by labels: partial routes with their end, time, length, sums and memory; one is dropped when another at
 * the same node is better in everything (Desrochers, Desrosiers & Solomon 1992, Oper Res 40:342). A node is not visited twice as long as it is
 * remembered, and each node remembers only its neighbourhood, which grows where routes come round again
 * (Baldacci, Mingozzi & Roberti 2011, Oper Res 59:1269; Righini & Salani 2008, Networks 51:155). Time out and sums
 * count only once a route was found that breaks them. Every route that holds is among those looked at, so the most
 * stays an upper bound.
 */
export class Pricer {
  readonly one: RouteClass;
  readonly completion: Completion;
  private readonly words: number;
  /** By node: which nodes it remembers, as bits. */
  private readonly keeps: Int32Array;
  // Labels, side by side.
  private room = 1 << 12;
  private node = new Int32Array(this.room);
  private parent = new Int32Array(this.room);
  private endS = new Int32Array(this.room);
  private spentS = new Int32Array(this.room);
  private latestS = new Int32Array(this.room);
  private gain = new Float64Array(this.room);
  private dead = new Uint8Array(this.room);
  private memory: Int32Array;
  private sums: Float64Array;
  private count = 0;
  private compared = 0;
  /** What counts besides windows: the time out, and which sums. */
  private outCounts = false;
  private readonly counts: number[] = [];
  private heap = new Int32Array(this.room);
  private waiting = 0;
  private readonly bags: number[][];

  constructor(one: RouteClass, near: number) {
    this.one = one;
    this.completion = new Completion(one);
    this.words = (one.count + 31) >> 5;
    this.memory = new Int32Array(this.room * this.words);
    this.sums = new Float64Array(this.room * one.sums.length);
    this.keeps = new Int32Array(one.count * this.words);
    this.bags = Array.from({ length: one.count }, () => []);
    for (let i = 0; i < one.count; i += 1) for (const j of nearest(one, i, near)) this.remember(i, j);
  }

  /** Node `at` remembers `what` from now on; false when it did already. */
  remember(at: number, what: number): boolean {
    if (this.remembers(at, what)) return false;
    this.keeps[at * this.words + (what >> 5)]! |= 1 << (what & 31);
    return true;
  }

  /** Memories grow along the cycles of `nodes`; true when one did. */
  breakCycles(nodes: readonly number[]): boolean {
    let grew = false;
    nodes.forEach((what, end) => {
      const begin = nodes.lastIndexOf(what, end - 1);
      if (begin < 0 || end === 0) return;
      for (let k = begin + 1; k < end; k += 1) if (this.remember(nodes[k]!, what)) grew = true;
    });
    return grew;
  }

  /** What `nodes` break counts from now on; true when something did not count before. */
  holdTo(nodes: readonly number[]): boolean {
    const { outS, sums } = this.usedBy(nodes);
    let more = false;
    if (!this.outCounts && outS > this.one.outS) {
      this.outCounts = true;
      more = true;
    }
    sums.forEach((sum, k) => {
      if (sum <= this.one.sums[k]!.available || this.counts.includes(k)) return;
      this.counts.push(k);
      more = true;
    });
    return more;
  }

  /** Time out and sums of a route. */
  private usedBy(nodes: readonly number[]): { outS: number; sums: number[] } {
    const { one } = this;
    const size = one.count + 1;
    let atS = one.leaveS;
    let spentS = 0;
    let latestS = NEVER;
    let at = one.count;
    const sums = one.sums.map(() => 0);
    for (const c of [...nodes, one.count]) {
      const legS = one.legS[at * size + c]!;
      one.sums.forEach((sum, k) => {
        sums[k]! += sum.leg[at * size + c]! + (c === one.count ? 0 : sum.node[c]!);
      });
      atS += legS;
      spentS += legS;
      at = c;
      if (c === one.count) break;
      atS = opensAt(one, c, atS) + one.lastsS[c]!;
      latestS = Math.min(latestS, one.openToS[one.openStart[c + 1]! - 1]! - spentS);
      spentS += one.lastsS[c]!;
    }
    const outS = Math.max(atS - latestS, spentS);
    return { outS, sums: sums.map((sum, k) => sum + one.sums[k]!.perSecond * outS) };
  }

  /** True when the memories and what counts let `nodes` follow each other. */
  allows(nodes: readonly number[]): boolean {
    const { outS, sums } = this.usedBy(nodes);
    if (this.outCounts && outS > this.one.outS) return false;
    return this.counts.every((k) => sums[k]! <= this.one.sums[k]!.available) && this.remembered(nodes);
  }

  private remembered(nodes: readonly number[]): boolean {
    return nodes.every((what, end) => {
      const begin = end === 0 ? -1 : nodes.lastIndexOf(what, end - 1);
      return begin < 0 || nodes.slice(begin + 1, end).some((at) => !this.remembers(at, what));
    });
  }

  private remembers(at: number, what: number): boolean {
    return (this.keeps[at * this.words + (what >> 5)]! & (1 << (what & 31))) !== 0;
  }

  /**
   * The best routes that gain more than `floor`, at most `many`. `hasty`: memories are not compared, so that routes are missed; then
   * the most is that of the completion.
   */
  *run(price: Float64Array, floor: number, many: number, hasty: boolean): Generator<void, Pricing> {
    const { completion } = this;
    if (completion.usable) yield* completion.fill(price);
    const usable = completion.usable
      ? completion.whole()
      : price.reduce((sum, value) => sum + Math.max(0, value), 0);
    if (usable <= floor) return { most: floor, found: [] };
    const { labels, isAll } = yield* this.labelsOver(price, floor, hasty);
    const found = this.routesOf(labels, many);
    return { most: hasty || !isAll ? usable : Math.max(floor, found[0]?.gain ?? 0), found };
  }

  /** The labels that gain more than `floor`; not all where there came to be too many. */
  private *labelsOver(
    price: Float64Array,
    floor: number,
    hasty: boolean,
  ): Generator<void, { labels: number[]; isAll: boolean }> {
    const { one } = this;
    this.count = 0;
    this.waiting = 0;
    for (const bag of this.bags) bag.length = 0;
    const labels: number[] = [];
    for (let c = 0; c < one.count; c += 1) this.extend(-1, c, price, floor, hasty);
    while (this.waiting > 0) {
      const label = this.pop();
      if (this.dead[label] === 1) continue;
      if (this.gain[label]! > floor) labels.push(label);
      for (let c = 0; c < one.count; c += 1) this.extend(label, c, price, floor, hasty);
      if (this.compared > BURST) {
        this.compared = 0;
        yield;
      }
      if (this.count > MOST_LABELS) return { labels, isAll: false };
    }
    return { labels, isAll: true };
  }

  /** Tries to go on from `label` (-1: from the lander) to node `c`. */
  private extend(label: number, c: number, price: Float64Array, floor: number, hasty: boolean): void {
    const { one, completion } = this;
    const { count, legS } = one;
    const size = count + 1;
    const isFirst = label < 0;
    const at = isFirst ? count : this.node[label]!;
    if (price[c]! <= 0 || at === c || this.isRemembered(label, c)) return;
    const wayS = legS[at * size + c]!;
    const startS = opensAt(one, c, (isFirst ? one.leaveS : this.endS[label]!) + wayS);
    const endS = startS + one.lastsS[c]!;
    const homeS = legS[c * size + count]!;
    if (endS + homeS > one.backByS) return;
    const gain = (isFirst ? 0 : this.gain[label]!) + price[c]!;
    if (completion.usable && gain + completion.after(c, endS, at) <= floor) return;
    const walkedS = (isFirst ? 0 : this.spentS[label]!) + wayS;
    const closesS = one.openToS[one.openStart[c + 1]! - 1]!;
    const latestS = Math.min(isFirst ? NEVER : this.latestS[label]!, closesS - walkedS);
    const spentS = walkedS + one.lastsS[c]!;
    const outS = Math.max(endS - latestS, spentS) + homeS;
    if (this.outCounts && outS > one.outS) return;
    this.makeRoom();
    if (!this.sumsHold(label, at, c, outS)) return;
    const mine = this.count;
    this.rememberOn(mine, label, c);
    this.node[mine] = c;
    this.parent[mine] = label;
    this.endS[mine] = endS;
    this.spentS[mine] = spentS;
    this.latestS[mine] = latestS;
    this.gain[mine] = gain;
    this.dead[mine] = 0;
    if (!this.enter(mine, c, hasty)) return;
    this.count += 1;
    this.push(mine);
  }

  /** True when `label` remembers node `c`. */
  private isRemembered(label: number, c: number): boolean {
    return label >= 0 && (this.memory[label * this.words + (c >> 5)]! & (1 << (c & 31))) !== 0;
  }

  /** Writes the sums of the next label, which goes on from `label` at node `at` to `c`; false where one counts and is too much. */
  private sumsHold(label: number, at: number, c: number, outS: number): boolean {
    const { one, sums } = this;
    const size = one.count + 1;
    const width = one.sums.length;
    for (const k of this.counts) {
      const sum = one.sums[k]!;
      const value = (label < 0 ? 0 : sums[label * width + k]!) + sum.leg[at * size + c]! + sum.node[c]!;
      if (value + sum.leg[c * size + one.count]! + sum.perSecond * outS > sum.available) return false;
      sums[this.count * width + k] = value;
    }
    return true;
  }

  /** What label `mine` remembers, gone on to node `c` from `label`: what both remember, and the node itself. */
  private rememberOn(mine: number, label: number, c: number): void {
    const { words, memory, keeps } = this;
    for (let w = 0; w < words; w += 1)
      memory[mine * words + w] = label < 0 ? 0 : memory[label * words + w]! & keeps[c * words + w]!;
    memory[mine * words + (c >> 5)]! |= 1 << (c & 31);
  }

  /** Puts a label into its node's bag unless it is dominated; takes out what it dominates. */
  private enter(mine: number, c: number, hasty: boolean): boolean {
    const bag = this.bags[c]!;
    let kept = 0;
    this.compared += bag.length + 50;
    for (let k = 0; k < bag.length; k += 1) {
      const other = bag[k]!;
      if (this.gain[other]! >= this.gain[mine]! && this.dominates(other, mine, hasty)) {
        // Dominated ones found before this one stay out: what they dominate this one would not.
        for (; k < bag.length; k += 1) bag[kept++] = bag[k]!;
        bag.length = kept;
        return false;
      }
      if (this.gain[other]! <= this.gain[mine]! && this.dominates(mine, other, hasty)) this.dead[other] = 1;
      else bag[kept++] = other;
    }
    bag.length = kept;
    bag.push(mine);
    return true;
  }

  /** True when `a`, which gains no less, is no worse than `b` in everything else. */
  private dominates(a: number, b: number, hasty: boolean): boolean {
    const { one, words, memory, sums } = this;
    if (this.endS[a]! > this.endS[b]!) return false;
    if (this.outCounts || this.counts.length > 0) {
      if (this.spentS[a]! > this.spentS[b]! || this.latestS[a]! < this.latestS[b]!) return false;
      const width = one.sums.length;
      for (const k of this.counts) if (sums[a * width + k]! > sums[b * width + k]!) return false;
    }
    if (hasty) return true;
    for (let w = 0; w < words; w += 1)
      if ((memory[a * words + w]! & ~memory[b * words + w]!) !== 0) return false;
    return true;
  }

  /** The best routes that end in `labels`, each set of nodes once. */
  private routesOf(labels: number[], many: number): FoundRoute[] {
    labels.sort((a, b) => this.gain[b]! - this.gain[a]! || a - b);
    const seen = new Set<string>();
    const found: FoundRoute[] = [];
    for (const label of labels) {
      if (found.length === many) break;
      const nodes: number[] = [];
      for (let k = label; k >= 0; k = this.parent[k]!) nodes.push(this.node[k]!);
      nodes.reverse();
      const key = [...nodes].sort((a, b) => a - b).join();
      if (seen.has(key)) continue;
      seen.add(key);
      found.push({ nodes, gain: this.gain[label]! });
    }
    return found;
  }

  private makeRoom(): void {
    if (this.count < this.room) return;
    this.room *= 2;
    const wider = <A extends Int32Array | Float64Array | Uint8Array>(
      array: A,
      make: (length: number) => A,
      each = 1,
    ): A => {
      const grown = make(this.room * each);
      grown.set(array);
      return grown;
    };
    const ints = (length: number): Int32Array<ArrayBuffer> => new Int32Array(length);
    const floats = (length: number): Float64Array<ArrayBuffer> => new Float64Array(length);
    this.node = wider(this.node, ints);
    this.parent = wider(this.parent, ints);
    this.endS = wider(this.endS, ints);
    this.spentS = wider(this.spentS, ints);
    this.latestS = wider(this.latestS, ints);
    this.gain = wider(this.gain, floats);
    this.dead = wider(this.dead, (length) => new Uint8Array(length));
    this.memory = wider(this.memory as Int32Array<ArrayBuffer>, ints, this.words);
    this.sums = wider(this.sums as Float64Array<ArrayBuffer>, floats, this.one.sums.length);
    this.heap = wider(this.heap, ints);
  }

  // A heap of labels by time: what is popped is never extended from again by an earlier one.
  private push(label: number): void {
    const { heap, endS } = this;
    let at = this.waiting++;
    while (at > 0) {
      const up = (at - 1) >> 1;
      if (endS[heap[up]!]! <= endS[label]!) break;
      heap[at] = heap[up]!;
      at = up;
    }
    heap[at] = label;
  }

  private pop(): number {
    const { heap, endS } = this;
    const top = heap[0]!;
    this.waiting -= 1;
    const last = heap[this.waiting]!;
    let at = 0;
    for (;;) {
      let down = 2 * at + 1;
      if (down >= this.waiting) break;
      if (down + 1 < this.waiting && endS[heap[down + 1]!]! < endS[heap[down]!]!) down += 1;
      if (endS[heap[down]!]! >= endS[last]!) break;
      heap[at] = heap[down]!;
      at = down;
    }
    heap[at] = last;
    return top;
  }
}

/** The `near` nodes that are soonest reached from `i` and back. */
function nearest(one: RouteClass, i: number, near: number): number[] {
  const size = one.count + 1;
  const far = (j: number): number => one.legS[i * size + j]! + one.legS[j * size + i]!;
  return Array.from({ length: one.count }, (_, j) => j)
    .filter((j) => j !== i)
    .sort((a, b) => far(a) - far(b) || a - b)
    .slice(0, near);
}
