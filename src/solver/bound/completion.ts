import { NEVER } from "../problem/problem.ts";
import type { RouteClass } from "./routes.ts";

/** Steps of time at most; with shorter steps the bound is sharper and dearer. */
const MOST_STEPS = 1500;

/**
 * What a route can still gain after leaving a node at a time, from above: the best continuation that never goes straight
 * back to where it came from but may come round again (two-cycle elimination: Christofides, Mingozzi & Toth 1981, Networks 11:145),
 * over steps of time. Where activities take no time at all it is not usable.
 */
export class Completion {
  private readonly one: RouteClass;
  private readonly stepS: number;
  private readonly steps: number;
  /** Best gain by node and step, the node it goes to first, and the best over another one. */
  private readonly best: Float64Array;
  private readonly via: Int32Array;
  private readonly second: Float64Array;
  readonly usable: boolean;

  constructor(one: RouteClass) {
    this.one = one;
    const { count, legS, lastsS } = one;
    let least = NEVER;
    for (let i = 0; i <= count; i += 1)
      for (let j = 0; j < count; j += 1)
        if (i !== j) least = Math.min(least, legS[i * (count + 1) + j]! + lastsS[j]!);
    const spanS = Math.max(1, one.backByS - one.leaveS);
    this.stepS = Math.max(1, least);
    this.steps = Math.floor(spanS / this.stepS) + 1;
    this.usable = least > 0 && this.steps <= MOST_STEPS;
    const size = this.usable ? (count + 1) * this.steps : 0;
    this.best = new Float64Array(size);
    this.via = new Int32Array(size);
    this.second = new Float64Array(size);
  }

  /** Works the table out for the price of each node. */
  *fill(price: Float64Array): Generator<void> {
    const { count } = this.one;
    let work = 0;
    for (let k = this.steps - 1; k >= 0; k -= 1) {
      for (let i = 0; i <= count; i += 1) this.fillCell(i, k, price);
      work += count * count;
      if (work > 100_000) {
        work = 0;
        yield;
      }
    }
  }

  /** The best after node `i` at step `k`, and the best over another node than that. */
  private fillCell(i: number, k: number, price: Float64Array): void {
    const { one, steps, stepS, best, via, second } = this;
    const { count, lastsS, legS, leaveS, backByS } = one;
    const size = count + 1;
    const atS = leaveS + k * stepS;
    let most = 0;
    let next = -1;
    let other = 0;
    for (let c = 0; c < count; c += 1) {
      const gain = price[c]!;
      if (gain <= 0 || c === i) continue;
      const endS = opensAt(one, c, atS + legS[i * size + c]!) + lastsS[c]!;
      if (endS + legS[c * size + count]! > backByS) continue;
      const cell = c * steps + Math.floor((endS - leaveS) / stepS);
      const whole = gain + (via[cell] === i ? second[cell]! : best[cell]!);
      if (whole > most) {
        other = most;
        most = whole;
        next = c;
      } else if (whole > other) other = whole;
    }
    const cell = i * steps + k;
    best[cell] = most;
    via[cell] = next;
    second[cell] = other;
  }

  /** The most that can be gained after leaving `node` at `atS`, not straight back to `from`. */
  after(node: number, atS: number, from: number): number {
    const cell = node * this.steps + Math.floor((atS - this.one.leaveS) / this.stepS);
    return this.via[cell] === from ? this.second[cell]! : this.best[cell]!;
  }

  /** The most that any route gains. */
  whole(): number {
    return this.best[this.one.count * this.steps]!;
  }
}

/** First time at or after `atS` at which node `c` may start; NEVER when there is none. */
export function opensAt(one: RouteClass, c: number, atS: number): number {
  const { openStart, openFromS, openToS } = one;
  for (let k = openStart[c]!; k < openStart[c + 1]!; k += 1)
    if (atS <= openToS[k]!) return atS < openFromS[k]! ? openFromS[k]! : atS;
  return NEVER;
}
