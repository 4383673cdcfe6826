import { NEVER } from "../problem/problem.ts";
import { opensAt } from "./completion.ts";
import type { RouteClass } from "./routes.ts";

/** Steps of time at most, steps times pairs of nodes before nodes remember anything, and cells of one table. */
const MOST_STEPS = 4000;
const MOST_WORK = 10_000_000;
const MOST_CELLS = 1_000_000;
/** Work between two looks at the clock. */
const BURST = 300_000;

/**
 * The best walk over a class of routes when going from one node to the next gains what it is told: nodes come round again where those
 * between do not remember them, and memories grow along the rounds of walks that were best (Baldacci, Mingozzi & Roberti 2011, Oper Res
 * 59:1269; Roberti & Mingozzi 2014, Transp Sci 48:413). Ends are brought forward to whole steps of time, so that every route there is
 * can be walked.
 */
export class NgRoutes {
  readonly usable: boolean;
  private readonly stepS: number;
  private readonly one: RouteClass;
  private readonly steps: number;
  private readonly mostMemory: number;
  /** By node the nodes it remembers, which grow. */
  private readonly memory: number[][];
  /** First state of each node: one for each set of what it remembers; the lander's only one comes last. */
  private firstState = new Int32Array(0);
  /** By state and node the state in which the node is reached; -1 where it is remembered. */
  private reached = new Int32Array(0);
  /** Best gain by state and step, and the node it goes to (-1: home). */
  private best = new Float64Array(0);
  private via = new Int16Array(0);
  private readonly walk: number[] = [];
  /** By node when it has to be done to be home in time. */
  private readonly endByS: Int32Array;
  /** The options in hand: nodes, steps and gains. */
  private readonly goes: Int32Array;
  private readonly stepOf: Int32Array;
  private readonly gains: Float64Array;

  /**
   * `about`: how many steps of time there should be; more where nodes follow each other sooner than such a step. `most`: nodes that one
   * node remembers at most, each of which doubles its states.
   */
  constructor(one: RouteClass, about: number, most: number) {
    this.one = one;
    this.mostMemory = most;
    const { count, legS, lastsS } = one;
    const size = count + 1;
    let leastS = NEVER;
    for (let i = 0; i <= count; i += 1)
      for (let j = 0; j < count; j += 1)
        if (i !== j) leastS = Math.min(leastS, legS[i * size + j]! + lastsS[j]!);
    const spanS = Math.max(1, one.backByS - one.leaveS);
    // Every next node has to lie in a later step.
    this.stepS = Math.max(1, Math.min(leastS, Math.ceil(spanS / about)));
    this.steps = Math.floor(spanS / this.stepS) + 1;
    this.usable = leastS > 0 && this.steps <= MOST_STEPS && this.steps * size * size <= MOST_WORK;
    this.memory = Array.from(lastsS, () => []);
    this.endByS = new Int32Array(count);
    this.goes = new Int32Array(count);
    this.stepOf = new Int32Array(count);
    this.gains = new Float64Array(count);
    if (this.usable) this.build();
  }

  /** Takes over what the nodes of `other`, a table of the same class, remember. */
  remember(other: NgRoutes): void {
    other.memory.forEach((nodes, c) => this.memory[c]!.splice(0, Infinity, ...nodes));
    if (this.usable) this.build();
  }

  /** Lets nodes remember what came round again on the last walk, as far as there is room. */
  grow(): void {
    const { walk, memory } = this;
    if (2 * this.best.length > MOST_CELLS) return;
    let grew = false;
    walk.forEach((what, end) => {
      const begin = end === 0 ? -1 : walk.lastIndexOf(what, end - 1);
      if (begin < 0) return;
      const between = walk.slice(begin + 1, end).filter((at) => !memory[at]!.includes(what));
      if (between.some((at) => memory[at]!.length >= this.mostMemory)) return;
      for (const at of new Set(between)) memory[at]!.push(what);
      grew = true;
    });
    if (grew) this.build();
  }

  private build(): void {
    const { memory, one, steps } = this;
    const { count } = one;
    const first = new Int32Array(count + 2);
    for (let c = 0; c <= count; c += 1) first[c + 1] = first[c]! + (c < count ? 1 << memory[c]!.length : 1);
    const states = first[count + 1]!;
    const reached = new Int32Array(states * count);
    for (let i = 0; i <= count; i += 1) {
      const own = memory[i] ?? [];
      for (let set = 0; set < first[i + 1]! - first[i]!; set += 1)
        for (let c = 0; c < count; c += 1) {
          const has = (node: number): boolean => {
            const bit = own.indexOf(node);
            return node === i || (bit >= 0 && (set & (1 << bit)) !== 0);
          };
          const next = memory[c]!.reduce((bits, node, k) => (has(node) ? bits | (1 << k) : bits), 0);
          reached[(first[i]! + set) * count + c] = has(c) ? -1 : first[c]! + next;
        }
    }
    this.firstState = first;
    this.reached = reached;
    this.best = new Float64Array(states * steps);
    this.via = new Int16Array(states * steps);
  }

  /**
   * The most that a walk gains, none at all gaining 0. `arc`, flat as legS, is what going there gains, home included; nodes that are not
   * `wanted` are passed by.
   */
  *most(arc: Float64Array, wanted: Uint8Array): Generator<void, number> {
    const { one } = this;
    const { count, legS } = one;
    const size = count + 1;
    const nodes: number[] = [];
    for (let c = 0; c < count; c += 1) if (wanted[c] === 1) nodes.push(c);
    for (let c = 0; c < count; c += 1) this.endByS[c] = one.backByS - legS[c * size + count]!;
    let work = 0;
    for (let k = this.steps - 1; k >= 0; k -= 1) {
      for (const i of nodes) work += this.fillFrom(i, k, nodes, arc);
      if (k === 0) work += this.fillFrom(count, k, nodes, arc);
      if (work > BURST) {
        work = 0;
        yield;
      }
    }
    return this.best[this.firstState[count]! * this.steps]!;
  }

  /** The best gain of every state of node `i` at step `k`, from those at later ones; gives how much work it was. */
  private fillFrom(i: number, k: number, nodes: readonly number[], arc: Float64Array): number {
    const { one, steps, best, via, firstState, reached, goes, stepOf, gains } = this;
    const { count } = one;
    const options = this.optionsFrom(i, k, nodes, arc);
    const home = i === count ? 0 : arc[i * (count + 1) + count]!;
    const end = firstState[i + 1]!;
    for (let state = firstState[i]!; state < end; state += 1) {
      let most = home;
      let next = -1;
      for (let o = 0; o < options; o += 1) {
        const to = reached[state * count + goes[o]!]!;
        if (to < 0) continue;
        const whole = gains[o]! + best[to * steps + stepOf[o]!]!;
        if (whole <= most) continue;
        most = whole;
        next = goes[o]!;
      }
      best[state * steps + k] = most;
      via[state * steps + k] = next;
    }
    return nodes.length + options * (end - firstState[i]!);
  }

  /** Where a walk may go on to from node `i` at step `k`: into `goes`, with the steps and gains there; gives how many there are. */
  private optionsFrom(i: number, k: number, nodes: readonly number[], arc: Float64Array): number {
    const { one, stepS, goes, stepOf, gains, endByS } = this;
    const { count, lastsS, legS, leaveS } = one;
    const atS = leaveS + k * stepS;
    const row = i * (count + 1);
    let options = 0;
    for (const c of nodes) {
      if (c === i) continue;
      const endS = this.opens(c, atS + legS[row + c]!) + lastsS[c]!;
      if (endS > endByS[c]!) continue;
      goes[options] = c;
      stepOf[options] = Math.floor((endS - leaveS) / stepS);
      gains[options] = arc[row + c]!;
      options += 1;
    }
    return options;
  }

  /** Tells of the steps of the best walk of the last table, the way home among them (to node `count`). */
  trace(tell: (from: number, to: number) => void): void {
    const { one, steps, stepS, via, firstState, reached, walk } = this;
    const { count, lastsS, legS, leaveS } = one;
    walk.length = 0;
    let state = firstState[count]!;
    let at = count;
    let k = 0;
    for (;;) {
      const next = via[state * steps + k]!;
      if (next < 0) {
        if (at !== count) tell(at, count);
        return;
      }
      tell(at, next);
      walk.push(next);
      const startS = this.opens(next, leaveS + k * stepS + legS[at * (count + 1) + next]!);
      k = Math.floor((startS + lastsS[next]! - leaveS) / stepS);
      state = reached[state * count + next]!;
      at = next;
    }
  }

  private opens(c: number, atS: number): number {
    const { openStart, openFromS, openToS } = this.one;
    const first = openStart[c]!;
    if (openStart[c + 1]! - first > 1) return opensAt(this.one, c, atS);
    return atS > openToS[first]! ? NEVER : Math.max(atS, openFromS[first]!);
  }
}
