import { Board } from "../network/board.ts";
import { lessOver, missingOver } from "../problem/groups.ts";
import type { Problem } from "../problem/problem.ts";
import { type RouteClass, routeClasses } from "./routes.ts";
import { Sequencer } from "./sequence.ts";
import { possibleSets } from "./subsets.ts";

/** More activities than this are left to the bound. */
export const MOST_ACTIVITIES = 14;
/** Assignments between two looks at the clock. */
const BURST = 2000;

/**
 * The best of all schedules of a small plan, with proof: every way to leave activities out or give them to crew members, cut off
 * where no more than the best so far can come of it or a route cannot hold its share; what is left is put in order or
 * shown to have none at any starts. Where that takes too long the question stays open, and so does the proof.
 */
export class Exact {
  /** The best day found, when it is better than the one given. */
  readonly best: Board;
  found = false;
  /** True once it is proved that nothing is better than the best day. */
  proved = false;
  private readonly problem: Problem;
  private readonly classes: readonly RouteClass[];
  private readonly sequencer: Sequencer;
  /** Worth, must-do tasks above all. */
  private readonly value: Float64Array;
  /** More than all worth. */
  private readonly whole: number;
  private readonly order: readonly number[];
  private readonly rest: Float64Array;
  private readonly choiceOf: Int32Array;
  private readonly inSet: Int32Array;
  private readonly nodeOf: readonly Int32Array[];
  private readonly classOf: Int32Array;
  private possible: Uint8Array[] = [];
  private least = -1;
  private open = -1;
  private steps = 0;

  constructor(problem: Problem) {
    this.problem = problem;
    this.best = new Board(problem);
    this.classes = routeClasses(problem);
    this.sequencer = new Sequencer(problem);
    const whole = problem.worth.reduce((sum, worth) => sum + worth, 1);
    this.whole = whole;
    this.value = problem.worth.map((worth, a) => worth + whole * problem.must[a]!);
    this.order = Array.from(problem.worth, (_, a) => a)
      .filter((a) => problem.openStart[a]! < problem.openStart[a + 1]!)
      .sort((a, b) => this.value[b]! - this.value[a]! || a - b);
    this.rest = new Float64Array(this.order.length + 1);
    for (let k = this.order.length - 1; k >= 0; k -= 1)
      this.rest[k] = this.rest[k + 1]! + this.value[this.order[k]!]!;
    this.choiceOf = new Int32Array(problem.activities).fill(-1);
    this.inSet = new Int32Array(problem.routes);
    this.classOf = new Int32Array(problem.routes).fill(-1);
    this.nodeOf = this.classes.map((one, q) => {
      for (const r of one.routes) this.classOf[r] = q;
      const nodes = new Int32Array(problem.activities).fill(-1);
      one.activity.forEach((a, node) => {
        nodes[a] = node;
      });
      return nodes;
    });
  }

  /** Goes through everything that may be better than `board`; yields often. */
  *run(board: Board): Generator<void> {
    this.least = this.valueOf(board);
    this.possible = [];
    for (const one of this.classes) this.possible.push(yield* possibleSets(one));
    yield* this.assign(0, 0);
    this.proved = this.open <= this.least;
  }

  private valueOf(board: Board): number {
    return this.valueWith((a) => board.placed[a] === 1);
  }

  /** Must-do tasks and what is least wanted of groups above all, then worth as it counts, of those that are there. */
  private valueWith(there: (a: number) => boolean): number {
    const { problem, value, whole } = this;
    const sum = value.reduce((all, one, a) => all + (there(a) ? one : 0), 0);
    return sum - lessOver(problem, there) - whole * missingOver(problem, there);
  }

  /** Gives activity `at` of the order to each of its choices, or leaves it out. */
  private *assign(at: number, value: number): Generator<void> {
    const { problem, order, choiceOf } = this;
    if (value + this.rest[at]! <= this.least) return;
    this.steps += 1;
    if (this.steps % BURST === 0) yield;
    if (at === order.length) {
      yield* this.findOrder(value);
      return;
    }
    const a = order[at]!;
    for (let c = problem.choiceStart[a]!; c < problem.choiceStart[a + 1]!; c += 1) {
      if (!this.enter(a, c)) continue;
      choiceOf[a] = c;
      yield* this.assign(at + 1, value + this.value[a]!);
      this.leave(a, c);
      choiceOf[a] = -1;
    }
    yield* this.assign(at + 1, value);
  }

  /** Puts `a` on the routes of choice `c` when each can hold it and what relates it to others allows. */
  private enter(a: number, c: number): boolean {
    const { problem, inSet, classOf, nodeOf } = this;
    if (!this.pairsAllow(a, c) || this.isFull(a)) return false;
    const first = problem.choiceAt[c]!;
    const crew = problem.crewCount[a]!;
    for (let k = 0; k < crew; k += 1) {
      const r = problem.choiceRoutes[first + k]!;
      const q = classOf[r]!;
      const node = q < 0 ? -1 : nodeOf[q]![a]!;
      if (node < 0 || this.possible[q]![inSet[r]! | (1 << node)] === 0) return false;
    }
    for (let k = 0; k < crew; k += 1) {
      const r = problem.choiceRoutes[first + k]!;
      inSet[r]! |= 1 << nodeOf[classOf[r]!]![a]!;
    }
    return true;
  }

  private leave(a: number, c: number): void {
    const { problem, inSet, classOf, nodeOf } = this;
    for (let k = 0; k < problem.crewCount[a]!; k += 1) {
      const r = problem.choiceRoutes[problem.choiceAt[c]! + k]!;
      inSet[r]! &= ~(1 << nodeOf[classOf[r]!]![a]!);
    }
  }

  /** Same crew, different crew, same EVA, not both: against what is given out already. */
  private pairsAllow(a: number, c: number): boolean {
    const { problem, choiceOf } = this;
    return problem.pairs[a]!.every(({ other, relation }) => {
      const theirs = choiceOf[other]!;
      if (theirs < 0) return true;
      if (relation === "not both") return false;
      if (relation === "same eva") return this.evaOf(a, c) === this.evaOf(other, theirs);
      const mine = this.membersOf(a, c);
      const common = this.membersOf(other, theirs).filter((member) => mine.includes(member)).length;
      return relation === "same crew"
        ? common === problem.crewCount[other]! && common === mine.length
        : common === 0;
    });
  }

  /** True when a group of `a` has all that it may have. */
  private isFull(a: number): boolean {
    const { groups } = this.problem;
    return (
      groups !== null &&
      groups.of[a]!.some((g) => {
        const there = groups.members[g]!.reduce((sum, b) => sum + (this.choiceOf[b]! >= 0 ? 1 : 0), 0);
        return there >= groups.most[g]!;
      })
    );
  }

  private evaOf(a: number, c: number): number {
    const { problem } = this;
    return problem.crewCount[a] === 0 ? -1 : problem.evaOfRoute[problem.choiceRoutes[problem.choiceAt[c]!]!]!;
  }

  private membersOf(a: number, c: number): number[] {
    const { problem } = this;
    return Array.from(
      { length: problem.crewCount[a]! },
      (_, k) => problem.memberOfRoute[problem.choiceRoutes[problem.choiceAt[c]! + k]!]!,
    );
  }

  /** Everything is given out, of `most` at the most: looks for an order. */
  private *findOrder(most: number): Generator<void> {
    const { problem, choiceOf, order, sequencer } = this;
    const value = problem.groups ? this.valueWith((a) => choiceOf[a]! >= 0) : most;
    if (value <= this.least) return;
    const there = order.filter((a) => choiceOf[a]! >= 0);
    if (there.some((a) => problem.needs[a]!.some((b) => choiceOf[b]! < 0))) return;
    if (!this.loadsHold(there)) return;
    const answer = yield* sequencer.run(there, choiceOf);
    if (answer === "never") return;
    if (answer === "unknown") {
      this.open = Math.max(this.open, value);
      return;
    }
    this.least = value;
    this.best.copy(sequencer.day.board);
    this.found = true;
  }

  /** What the containers and the ascent vehicle take. */
  private loadsHold(there: readonly number[]): boolean {
    const { loads } = this.problem;
    const boxes = loads.emptyGrams.length;
    const grams = new Float64Array(boxes);
    const millilitres = new Float64Array(boxes);
    const used = new Set<number>();
    let back = 0;
    for (const a of there) {
      const c = loads.container[a]!;
      if (c < 0) continue;
      if (!used.has(c)) back += loads.emptyGrams[c]!;
      used.add(c);
      grams[c]! += loads.grams[a]!;
      millilitres[c]! += loads.millilitres[a]!;
      back += loads.grams[a]!;
    }
    return (
      back <= loads.returnGrams &&
      grams.every((sum, c) => sum <= loads.holdsGrams[c]!) &&
      millilitres.every((sum, c) => sum <= loads.holdsMillilitres[c]!)
    );
  }
}
