import { random } from "../../kernel/index.ts";
import type { Board } from "../network/board.ts";
import type { Problem } from "../problem/problem.ts";
import { byCrewTime } from "./crewtime.ts";
import { Packing } from "./packing.ts";
import { type FoundRoute, Pricer } from "./pricer.ts";
import { type Relation, relationsOf } from "./relations.ts";
import { type RouteClass, routeClasses } from "./routes.ts";

/**
 * An upper bound on worth: the best mix of routes on their own, each activity wanted only as often as it is needed
 * (Dantzig & Wolfe 1960, Oper Res 8:101; for this problem Boussier, Feillet & Gendreau 2007, 4OR 5:211). Any prices bound:
 * what all limits are worth plus what the best route gains beyond (Lasdon 1970), so the work can be stopped at any time.
 */

/** Prices are whole multiples of this, so that sums of them are exact. */
const GRAIN = 1 / 4096;
/** Nodes that each node remembers from the start. */
const NEAR = 4;
/** Routes taken from one pricing of a class. */
const MANY = 40;
/** Part of the best prices so far in the next ones (Wentges 1997, Int Trans Oper Res 4:151). */
const SMOOTH = 0.4;

export class RouteBound {
  /** No schedule that has every must-do task (where `musts`) is worth more; Infinity while nothing is known. */
  worth = Infinity;
  private readonly problem: Problem;
  private readonly classes: readonly RouteClass[];
  private readonly pricers: readonly Pricer[];
  private readonly relations: readonly Relation[];
  private readonly packing: Packing;
  /** Worth that counts while pricing: must-do tasks have a bonus, taken off again where all of them are there. */
  private readonly value: Float64Array;
  private readonly bonus: number;
  private readonly steady: number;
  private readonly common: number;
  /** By column the class and the route it stands for. */
  private readonly meaning: { one: number; nodes: readonly number[] }[] = [];
  private readonly keys = new Set<string>();
  /** The prices that gave the least bound, and that bound before rounding. */
  private best: Float64Array | null = null;
  private least = Infinity;

  /** `musts`: only schedules with every must-do task count. */
  constructor(given: Problem, musts: boolean, classes = routeClasses(given)) {
    const { problem, more } = byCrewTime(given, classes, musts);
    this.problem = problem;
    this.classes = classes;
    this.pricers = this.classes.map((one) => new Pricer(one, NEAR));
    const most = problem.worth.reduce((top, worth) => Math.max(top, worth), 0);
    const extra = musts ? 2 * most + 1 : 0;
    this.value = problem.worth.map((worth, a) => worth + extra * problem.must[a]!);
    this.common = commonDivisor(problem.worth, more);
    let steady = more;
    let bonus = 0;
    for (let a = 0; a < problem.activities; a += 1) {
      if (problem.must[a] === 1) bonus += extra;
      // What needs nobody, or cannot be judged as a route, may always be there.
      if (problem.crewCount[a] === 0) steady += this.value[a]!;
    }
    this.steady = steady;
    this.bonus = bonus;
    this.relations = relationsOf(problem);
    const limits = [
      ...Array.from(problem.crewCount),
      ...this.classes.map((one) => one.routes.length),
      ...this.relations.map((one) => one.limit),
    ];
    this.packing = new Packing(limits, random(1));
  }

  /** Takes the routes of a day as a beginning. */
  learn(board: Board): void {
    this.classes.forEach((one, q) => {
      const nodeOf = new Map(Array.from(one.activity, (a, node) => [a, node]));
      for (const r of one.routes) {
        const nodes: number[] = [];
        for (let s = board.next[board.head + r]!; s < board.head; s = board.next[s]!) {
          const node = nodeOf.get(board.nodeOf[s]!);
          if (node !== undefined) nodes.push(node);
        }
        if (nodes.length > 0) this.add(q, nodes);
      }
    });
  }

  /** Lowers `worth` until it reaches `enough`, which may grow, or routes give no better; yields often. */
  *run(enough: () => number): Generator<void> {
    for (let hasty = true; ;) {
      yield* this.packing.solve();
      const found = yield* this.priceOnce(enough, hasty);
      if (this.worth <= enough()) return;
      if (found) continue;
      // Only where hasty pricing and patient pricing find nothing more, what the routes do has to be held to.
      if (!hasty && !this.tighten()) return;
      hasty = !hasty;
    }
  }

  /** Prices with prices mixed with the best ones and, where that finds nothing, with the packing's own; true when a new route came in. */
  private *priceOnce(enough: () => number, hasty: boolean): Generator<void, boolean> {
    const { price } = this.packing;
    const smooth = this.best && !hasty ? SMOOTH : 0;
    const found = yield* this.price(price, smooth, hasty);
    if (found || smooth === 0 || this.worth <= enough()) return found;
    return yield* this.price(price, 0, hasty);
  }

  /** Forbids what the routes in use do that no real route does; false when there is nothing. */
  private tighten(): boolean {
    const { packing, pricers } = this;
    let more = false;
    for (const { column } of packing.used()) {
      const { one, nodes } = this.meaning[column]!;
      if (pricers[one]!.breakCycles(nodes)) more = true;
      if (pricers[one]!.holdTo(nodes)) more = true;
    }
    if (!more) return false;
    this.meaning.forEach(({ one, nodes }, column) => {
      if (pricers[one]!.allows(nodes)) return;
      packing.void(column);
      // In another order the same activities may be allowed.
      this.keys.delete(keyOf(one, nodes));
    });
    this.best = null;
    this.least = Infinity;
    return true;
  }

  /** Prices every class at the packing's prices, mixed with the best ones; true when a new route came in. */
  private *price(now: Float64Array, smooth: number, hasty: boolean): Generator<void, boolean> {
    const { problem, classes, pricers, relations } = this;
    const best = this.best;
    const prices = now.map((price, i) => {
      const mixed = best ? smooth * best[i]! + (1 - smooth) * price : price;
      return Math.ceil(Math.max(0, mixed) / GRAIN) * GRAIN;
    });
    const rows = problem.activities + classes.length;
    let bound = this.steady - this.bonus;
    for (let a = 0; a < problem.activities; a += 1) bound += prices[a]! * problem.crewCount[a]!;
    relations.forEach((one, k) => {
      bound += prices[rows + k]! * one.limit;
    });
    let came = false;
    for (let q = 0; q < classes.length; q += 1) {
      const one = classes[q]!;
      const gain = Float64Array.from(one.activity, (a) => this.gainOf(a, prices));
      // Only what beats the class's own price can come in.
      const floor = Math.max(0, Math.floor(prices[problem.activities + q]! / GRAIN - 2) * GRAIN);
      const pricing = yield* pricers[q]!.run(gain, floor, MANY, hasty);
      bound += pricing.most * one.routes.length;
      for (const route of pricing.found) if (this.brings(q, route) && this.add(q, route.nodes)) came = true;
    }
    const rounded = Math.floor(bound / this.common + 1e-9) * this.common;
    if (bound < this.least) {
      this.least = bound;
      this.best = prices;
    }
    if (rounded < this.worth) this.worth = rounded;
    return came;
  }

  /** What one more visit to an activity gains at the prices, a share of it when it takes several crew members. */
  private gainOf(a: number, prices: Float64Array): number {
    const crew = this.problem.crewCount[a]!;
    const rows = this.problem.activities + this.classes.length;
    let gain = Math.ceil(this.value[a]! / crew / GRAIN) * GRAIN - prices[a]!;
    this.relations.forEach((one, k) => {
      const share = one.share.get(a);
      if (share !== undefined) gain -= (prices[rows + k]! * share) / crew;
    });
    return gain;
  }

  private brings(q: number, route: FoundRoute): boolean {
    let gain = -this.packing.price[this.problem.activities + q]!;
    for (const node of route.nodes) gain += this.gainOf(this.classes[q]!.activity[node]!, this.packing.price);
    return gain > 1e-6;
  }

  private add(q: number, nodes: readonly number[]): boolean {
    const { problem, classes, relations } = this;
    const key = keyOf(q, nodes);
    if (this.keys.has(key)) return false;
    this.keys.add(key);
    const share = new Map<number, number>([[problem.activities + q, 1]]);
    let worth = 0;
    for (const node of nodes) {
      const a = classes[q]!.activity[node]!;
      const crew = problem.crewCount[a]!;
      worth += this.value[a]! / crew;
      share.set(a, (share.get(a) ?? 0) + 1);
      relations.forEach((one, k) => {
        const part = one.share.get(a);
        const row = problem.activities + classes.length + k;
        if (part !== undefined) share.set(row, (share.get(row) ?? 0) + part / crew);
      });
    }
    this.packing.add({ worth, rows: [...share.keys()], share: [...share.values()] });
    this.meaning.push({ one: q, nodes });
    return true;
  }
}

/** The same for routes of a class with the same activities. */
function keyOf(one: number, nodes: readonly number[]): string {
  return `${one}:${[...nodes].sort((a, b) => a - b).join()}`;
}

/** The greatest whole number that divides every worth and `more`; what is 0 is no matter. */
export function commonDivisor(worths: Float64Array, more: number): number {
  let common = 0;
  for (const worth of [...worths, more]) {
    if (!Number.isInteger(worth)) return Number.MIN_VALUE;
    for (let rest = worth; rest > 0;) [common, rest] = [rest, common % rest];
  }
  return Math.max(1, common);
}
