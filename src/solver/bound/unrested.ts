import type { Board } from "../network/board.ts";
import type { Limits } from "../problem/problem.ts";

/** When something may be: not before the one, not after the other, s. */
interface Span {
  readonly fromS: number;
  readonly byS: number;
}

/** An outing as far as it is known: when it may begin and when all may be back, and whether anybody but the one looked at has tasks on it. */
interface Outing {
  readonly egress: Span;
  readonly back: Span;
  readonly alone: boolean;
}

/**
 * True where in the order on `board` somebody works too long without a rest whatever starts are chosen from the earliest to the latest
 * (work-and-rest). Each crew member by themselves: from rest to rest as soon as may be, since who has rested sooner may do whatever who rested later
 * does. `limits` are those of all rules, which the board's own problem may leave out.
 */
export function unrestedForSure(board: Board, limits: Limits): boolean {
  const { problem } = board;
  if (!Number.isFinite(limits.workS)) return false;
  for (let e = 0; e < problem.evas; e += 1) {
    if (board.onEva[e] === 0) continue;
    const outing = outingOf(board, e);
    for (let r = problem.routeStart[e]!; r < problem.routeStart[e + 1]!; r += 1)
      if (board.onRoute[r]! > 0 && !new Course(board, limits, r, outing).mayEnd()) return true;
  }
  return false;
}

/** Egress and all back of EVA `e` between what its first and last tasks allow (S3). */
function outingOf(board: Board, e: number): Outing {
  const { problem, earliest, latest, next, prev, nodeOf } = board;
  const { activities, routeStart } = problem;
  const egress = activities + 2 * e;
  let leavesS = Infinity;
  let backByS = -Infinity;
  let routes = 0;
  for (let r = routeStart[e]!; r < routeStart[e + 1]!; r += 1) {
    if (board.onRoute[r] === 0) continue;
    routes += 1;
    const first = next[board.head + r]!;
    const last = prev[board.tail + r]!;
    leavesS = Math.min(leavesS, earliest[nodeOf[first]!]! - board.gapS(board.head + r, first));
    backByS = Math.max(backByS, latest[nodeOf[last]!]! + board.gapS(last, board.tail + r));
  }
  return {
    egress: { fromS: Math.max(earliest[egress]!, leavesS), byS: latest[egress]! },
    back: { fromS: earliest[egress + 1]!, byS: Math.min(latest[egress + 1]!, backByS) },
    alone: routes === 1,
  };
}

/** What one crew member does on an outing: the tasks of a route in their order, and when each may begin rested. */
class Course {
  private readonly board: Board;
  private readonly workS: number;
  private readonly pauseS: number;
  private readonly outing: Outing;
  private readonly legs: Int32Array;
  /** Egress, the tasks, all back. */
  private readonly nodes: readonly number[];
  /** By node: from when on a stretch of work may begin with it; Infinity where it may not. */
  private readonly restedS: number[];

  constructor(board: Board, { workS, restS }: Limits, r: number, outing: Outing) {
    this.board = board;
    this.workS = workS;
    // No pause is none.
    this.pauseS = Math.max(1, restS);
    this.outing = outing;
    this.legs = board.problem.legS[r]!;
    const nodes: number[] = [];
    for (let s = board.head + r; s !== board.tail + r; s = board.next[s]!) nodes.push(board.nodeOf[s]!);
    nodes.push(board.nodeOf[board.tail + r]!);
    this.nodes = nodes;
    this.restedS = nodes.map(() => Infinity);
  }

  /** True when all of it may be done. */
  mayEnd(): boolean {
    const { nodes, restedS, workS } = this;
    const { lengthS } = this.board.problem;
    const last = nodes.length - 1;
    const airlockS = lengthS[nodes[0]!]!;
    if (airlockS > workS || lengthS[nodes[last]!]! > workS) return false;
    // Who goes straight to work waits before it, not in it.
    if (airlockS === 0 && this.wayS(1) === 0) restedS[1] = this.span(1).fromS;
    if (this.follow(0, this.outing.egress, airlockS)) return true;
    for (let k = 1; k < last; k += 1) if (this.mayEndAfterRestAt(k)) return true;
    return restedS[last]! < Infinity;
  }

  /** True when all of it may be done by a stretch of work that begins with node `k`, or right after it where that is a rest itself. */
  private mayEndAfterRestAt(k: number): boolean {
    const fromS = this.restedS[k]!;
    const { byS } = this.span(k);
    if (fromS > byS) return false;
    const lastsS = this.board.problem.lengthS[this.nodes[k]!]!;
    if (!this.isIdle(k)) return this.follow(k, { fromS, byS }, lastsS);
    if (this.wayS(k + 1) === 0) this.mayBegin(k + 1, fromS + lastsS);
    return this.follow(k, { fromS: fromS + lastsS, byS: byS + lastsS }, 0);
  }

  /**
   * Follows a stretch of work from a moment of `begin` on, of which node `at` is done after `doneS`: where it may end in a rest, work may begin
   * anew. True when it may go on until everything is done.
   */
  private follow(at: number, begin: Span, doneS: number): boolean {
    const { nodes, workS, pauseS } = this;
    const { lengthS } = this.board.problem;
    const last = nodes.length - 1;
    let { fromS, byS } = begin;
    let sumS = doneS;
    // When what comes first can be done at the soonest, whenever the stretch begins.
    let soonestS = -Infinity;
    const tooLong = (): boolean => {
      fromS = Math.max(fromS, soonestS - workS);
      return sumS > workS || fromS > byS;
    };
    for (let k = at + 1; ; k += 1) {
      const wayS = this.wayS(k);
      sumS += wayS;
      soonestS += wayS;
      if (tooLong()) return false;
      const thereS = Math.max(fromS + sumS, soonestS);
      if (this.isIdle(k)) this.mayBegin(k, thereS);
      if (this.mayWait(k)) this.mayBegin(k, thereS + pauseS);
      const lastsS = lengthS[nodes[k]!]!;
      if (k === last && lastsS === 0) return true;
      const span = this.span(k);
      byS = Math.min(byS, span.byS - sumS);
      sumS += lastsS;
      soonestS = Math.max(soonestS, span.fromS) + lastsS;
      if (tooLong()) return false;
      if (k === last) return true;
    }
  }

  /** The way to node `k` from the one before it, s. */
  private wayS(k: number): number {
    const { places, endsAt, beginsAt } = this.board.problem;
    return this.legs[endsAt[this.nodes[k - 1]!]! * places + beginsAt[this.nodes[k]!]!]!;
  }

  private span(k: number): Span {
    const { earliest, latest } = this.board;
    const node = this.nodes[k]!;
    if (k === this.nodes.length - 1) return this.outing.back;
    return { fromS: earliest[node]!, byS: latest[node]! };
  }

  /** True for a task in which nobody works: a pause goes on in it. */
  private isIdle(k: number): boolean {
    if (k === this.nodes.length - 1) return false;
    const { restful, lengthS } = this.board.problem;
    return restful[this.nodes[k]!] === 1 || lengthS[this.nodes[k]!] === 0;
  }

  /** Who goes out alone waits neither before the first task, which egress follows from, nor for others to come back (S3). */
  private mayWait(k: number): boolean {
    return !this.outing.alone || (k > 1 && k < this.nodes.length - 1);
  }

  private mayBegin(k: number, atS: number): void {
    const span = this.span(k);
    const fromS = Math.max(atS, span.fromS);
    if (fromS <= span.byS) this.restedS[k] = Math.min(this.restedS[k]!, fromS);
  }
}
