import { NEVER } from "../problem.ts";
import { opensAt } from "./completion.ts";
import type { RouteClass } from "./routes.ts";

/** Steps of time times pairs of nodes that one table may take. */
const MOST_WORK = 30_000_000;
/** Work between two looks at the clock. */
const BURST = 300_000;

/**
 * The best walk over a class of routes when going from one node to the next gains what it is told: every node as often as there is
 * time for, but never straight back to where it came from (two-cycle elimination: Christofides, Mingozzi & Toth 1981, Networks 11:145).
 * Ends are brought forward to whole steps of time, so that every route there is can be walked.
 */
export class Walks {
  readonly usable: boolean;
  readonly stepS: number;
  private readonly one: RouteClass;
  private readonly steps: number;
  /** Best gain by node and step with the node it goes to (-1: home), and the best that goes elsewhere. */
  private readonly best: Float64Array;
  private readonly via: Int32Array;
  private readonly second: Float64Array;
  private readonly viaSecond: Int32Array;
  private readonly fromS: Int32Array;
  private readonly toS: Int32Array;
  private readonly endByS: Int32Array;

  /** `about`: how many steps of time there should be; more where nodes follow each other sooner than such a step. */
  constructor(one: RouteClass, about: number) {
    this.one = one;
    const { count, legS, lastsS, openStart, openFromS, openToS } = one;
    const size = count + 1;
    let leastS = NEVER;
    for (let i = 0; i <= count; i += 1)
      for (let j = 0; j < count; j += 1)
        if (i !== j) leastS = Math.min(leastS, legS[i * size + j]! + lastsS[j]!);
    const spanS = Math.max(1, one.backByS - one.leaveS);
    // Every next node has to lie in a later step.
    this.stepS = Math.max(1, Math.min(leastS, Math.ceil(spanS / about)));
    this.steps = Math.floor(spanS / this.stepS) + 1;
    this.usable = leastS > 0 && this.steps * size * size <= MOST_WORK;
    const cells = this.usable ? size * this.steps : 0;
    this.best = new Float64Array(cells);
    this.via = new Int32Array(cells);
    this.second = new Float64Array(cells);
    this.viaSecond = new Int32Array(cells);
    // One stretch is looked up fast; where there are several the first and the last end bound it.
    this.fromS = Int32Array.from(lastsS, (_, c) => openFromS[openStart[c]!]!);
    this.toS = Int32Array.from(lastsS, (_, c) => openToS[openStart[c + 1]! - 1]!);
    this.endByS = Int32Array.from(lastsS, (_, c) => one.backByS - legS[c * size + count]!);
  }

  /**
   * The most that a walk gains, none at all gaining 0. `arc`, flat as legS, is what going there gains, home included; nodes that are not
   * `wanted` are passed by.
   */
  *most(arc: Float64Array, wanted: Uint8Array): Generator<void, number> {
    const { one, steps, stepS, best, via, second, viaSecond, fromS, toS, endByS } = this;
    const { count, lastsS, legS, leaveS, openStart } = one;
    const size = count + 1;
    const nodes: number[] = [];
    for (let c = 0; c < count; c += 1) if (wanted[c] === 1) nodes.push(c);
    let work = 0;
    for (let k = steps - 1; k >= 0; k -= 1) {
      const atS = leaveS + k * stepS;
      for (let n = k === 0 ? -1 : 0; n < nodes.length; n += 1) {
        const i = n < 0 ? count : nodes[n]!;
        const row = i * size;
        let most = i === count ? 0 : arc[row + count]!;
        let next = -1;
        let other = -Infinity;
        let otherNext = -1;
        for (const c of nodes) {
          if (c === i) continue;
          let startS = atS + legS[row + c]!;
          if (startS > toS[c]!) continue;
          if (openStart[c + 1]! - openStart[c]! > 1) startS = opensAt(one, c, startS);
          else if (startS < fromS[c]!) startS = fromS[c]!;
          const endS = startS + lastsS[c]!;
          if (endS > endByS[c]!) continue;
          const cell = c * steps + Math.floor((endS - leaveS) / stepS);
          const whole = arc[row + c]! + (via[cell] === i ? second[cell]! : best[cell]!);
          if (whole > most) {
            other = most;
            otherNext = next;
            most = whole;
            next = c;
          } else if (whole > other) {
            other = whole;
            otherNext = c;
          }
        }
        const cell = i * steps + k;
        best[cell] = most;
        via[cell] = next;
        second[cell] = other;
        viaSecond[cell] = otherNext;
      }
      work += nodes.length * nodes.length;
      if (work > BURST) {
        work = 0;
        yield;
      }
    }
    return best[count * steps]!;
  }

  /** Tells of the steps of the best walk of the last table, the way home among them (to node `count`). */
  trace(tell: (from: number, to: number) => void): void {
    const { one, steps, stepS, via, viaSecond } = this;
    const { count, lastsS, legS, leaveS } = one;
    const size = count + 1;
    let came = -1;
    let at = count;
    let atS = leaveS;
    for (;;) {
      const cell = at * steps + Math.floor((atS - leaveS) / stepS);
      const next = came >= 0 && via[cell] === came ? viaSecond[cell]! : via[cell]!;
      if (next < 0) {
        if (at !== count) tell(at, count);
        return;
      }
      tell(at, next);
      const stepAtS = leaveS + Math.floor((atS - leaveS) / stepS) * stepS;
      atS = opensAt(one, next, stepAtS + legS[at * size + next]!) + lastsS[next]!;
      came = at;
      at = next;
    }
  }
}
