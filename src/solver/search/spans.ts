import { gridFrom } from "../../kernel/index.ts";
import type { Board } from "../network/board.ts";
import type { Problem } from "../problem/problem.ts";

/**
 * How long an EVA takes at the least, whenever it begins: from egress to each start on it, and from each start until all are back. These are
 * longest paths over its routes, with rests, and over holds, links and units of equipment between what stands on it; who does something
 * together waits for the last of them, and from one start on the grid to the next it is whole steps. Windows and other EVAs are left out, so
 * that an EVA may take longer, but never less.
 */
export class Spans {
  /** By node of an EVA that was read: from egress to its start, and from its start until all are back, s. */
  readonly fromOutS: Int32Array;
  readonly toBackS: Int32Array;
  private readonly board: Board;
  private readonly problem: Problem;
  /** By node what its starts are whole multiples of, s. */
  private readonly stepS: Int32Array;
  /** By EVA the state of the board it was read at. */
  private readonly readAt: Int32Array;
  /** By node the pass in which it was reached last, and on how many of its routes. */
  private readonly reachedIn: Int32Array;
  private readonly times: Int32Array;
  private pass = 0;
  /** By route the slot that a pass has come to. */
  private readonly at: Int32Array;
  /** The place in hand: its start at the earliest and the latest; least time from egress to it and from it until all are back; the longest EVA. */
  private beginsS = 0;
  private byS = 0;
  private outS = 0;
  private backS = 0;
  private allowedS = 0;

  constructor(board: Board) {
    const { problem } = board;
    this.board = board;
    this.problem = problem;
    this.fromOutS = new Int32Array(problem.nodes);
    this.toBackS = new Int32Array(problem.nodes);
    this.reachedIn = new Int32Array(problem.nodes);
    this.times = new Int32Array(problem.nodes);
    this.stepS = new Int32Array(problem.nodes).fill(1);
    for (let a = 0; a < problem.activities; a += 1) if (isOnGrid(problem, a)) this.stepS[a] = problem.gridS;
    this.readAt = new Int32Array(problem.evas).fill(-1);
    this.at = new Int32Array(problem.routes);
  }

  /** Reads EVA `e` as it stands on the board now. */
  read(e: number): void {
    const { board, readAt } = this;
    if (readAt[e] === board.state) return;
    readAt[e] = board.state;
    this.goAlong(e, true);
    this.goAlong(e, false);
  }

  /** Least time between the starts of two nodes that are `seconds` apart at the least: between two on the grid whole steps of it. */
  private gapS(one: number, other: number, seconds: number): number {
    const stepS = this.stepS[one]!;
    return stepS > 1 && this.stepS[other] === stepS ? gridFrom(seconds, stepS) : seconds;
  }

  /** The least that EVA `e`, as it was read, takes from egress until all are back. */
  wholeS(e: number): number {
    return this.fromOutS[this.problem.activities + 2 * e + 1]!;
  }

  /**
   * False where `activity` behind the slots `behind` on EVA `e` cannot begin in time, or makes the EVA take longer for sure than what its suits
   * then carry allows. Rests and holds that are there now stay, as in Day.tryBeside, which refuses all that is refused here.
   */
  mayHold(activity: number, behind: ArrayLike<number>, e: number): boolean {
    const { problem } = this;
    const slots = problem.slotStart[activity + 1]! - problem.slotStart[activity]!;
    this.read(e);
    this.beginsS = -Infinity;
    this.byS = Infinity;
    this.outS = this.linkedFromOutS(activity, e);
    this.backS = this.linkedToBackS(activity, e);
    this.allowedS = this.board.allowedS[e]!;
    for (let k = 0; k < slots; k += 1) this.standBehind(activity, behind[k]!, e);
    return this.beginsS <= this.byS && this.isShortEnough(e);
  }

  /** Takes in what the place in hand has right before and after it on one of its routes and chains. */
  private standBehind(activity: number, p: number, e: number): void {
    const { board, problem } = this;
    const { nodeOf, earliest, latest, lane } = board;
    const { lengthS, places, beginsAt, endsAt, routes } = problem;
    const q = board.next[p]!;
    const i = nodeOf[p]!;
    const j = nodeOf[q]!;
    const r = lane[p]!;
    const isRoute = r < routes;
    let intoS = lengthS[i]!;
    let onS = lengthS[activity]!;
    if (isRoute) {
      const legs = problem.legS[r]!;
      intoS += legs[endsAt[i]! * places + beginsAt[activity]!]!;
      onS += legs[endsAt[activity]! * places + beginsAt[j]!]! + board.restS[q]!;
      this.allowedS = Math.min(this.allowedS, board.allowedWith(activity, r, p));
    }
    this.beginsS = Math.max(this.beginsS, earliest[i]! + intoS);
    this.byS = Math.min(this.byS, latest[j]! - onS);
    if (isRoute || this.isOn(i, e))
      this.outS = Math.max(this.outS, this.fromOutS[i]! + this.gapS(i, activity, intoS));
    if (isRoute || this.isOn(j, e))
      this.backS = Math.max(this.backS, this.toBackS[j]! + this.gapS(activity, j, onS));
  }

  /** True where all can be back in time from the place in hand: no sooner than now, after an egress that is no later than it may be now. */
  private isShortEnough(e: number): boolean {
    const { board, problem, allowedS } = this;
    const egress = problem.activities + 2 * e;
    const inS = problem.lengthS[egress + 1]!;
    let longestS = this.outS + this.backS;
    let allBackS = this.beginsS + this.backS;
    let outByS = this.byS - this.outS;
    if (board.onEva[e]! > 0) {
      longestS = Math.max(longestS, this.wholeS(e));
      allBackS = Math.max(allBackS, board.earliest[egress + 1]!);
      outByS = Math.min(outByS, board.latest[egress]!);
    }
    return longestS + inS <= allowedS && allBackS + inS - allowedS <= outByS;
  }

  /** From egress until what comes before `activity` by a link lets it begin, on EVA `e` as it was read; 0 where nothing does. */
  private linkedFromOutS(activity: number, e: number): number {
    const { intoStart, into, from, weight } = this.problem.edges;
    let mostS = 0;
    for (let k = intoStart[activity]!; k < intoStart[activity + 1]!; k += 1) {
      const i = from[into[k]!]!;
      if (this.isOn(i, e))
        mostS = Math.max(mostS, this.fromOutS[i]! + this.gapS(i, activity, weight[into[k]!]!));
    }
    return mostS;
  }

  /** As linkedFromOutS, from the start of `activity` until all are back, for what comes after it by a link. */
  private linkedToBackS(activity: number, e: number): number {
    const { outStart, out, to, weight } = this.problem.edges;
    let mostS = 0;
    for (let k = outStart[activity]!; k < outStart[activity + 1]!; k += 1) {
      const j = to[out[k]!]!;
      if (this.isOn(j, e))
        mostS = Math.max(mostS, this.toBackS[j]! + this.gapS(activity, j, weight[out[k]!]!));
    }
    return mostS;
  }

  private isOn(node: number, e: number): boolean {
    return node < this.problem.activities && this.board.evaOf[node] === e;
  }

  /** Works out one side of EVA `e`: along its routes from egress, or against them from when all are back. */
  private goAlong(e: number, isForward: boolean): void {
    const { board, problem, at } = this;
    const egress = problem.activities + 2 * e;
    this.pass += 1;
    if (isForward) this.fromOutS[egress] = this.fromOutS[egress + 1] = 0;
    else this.toBackS[egress] = this.toBackS[egress + 1] = 0;
    const first = problem.routeStart[e]!;
    const end = problem.routeStart[e + 1]!;
    for (let r = first; r < end; r += 1) at[r] = (isForward ? board.head : board.tail) + r;
    for (let moved = true; moved;) {
      moved = false;
      for (let r = first; r < end; r += 1) if (this.goOn(r, isForward)) moved = true;
    }
  }

  /** Goes on along route `r` until somebody has to be waited for, or to its end; false where it does not get anywhere. */
  private goOn(r: number, isForward: boolean): boolean {
    const { board, at } = this;
    const { nodeOf, head } = board;
    const along = isForward ? board.next : board.prev;
    const seconds = isForward ? this.fromOutS : this.toBackS;
    const end = (isForward ? board.tail : head) + r;
    const begun = at[r]!;
    let s = begun;
    while (s !== end && (s >= head || this.isReached(nodeOf[s]!))) {
      const q = along[s]!;
      const i = nodeOf[s]!;
      const j = nodeOf[q]!;
      const atS = seconds[i]! + this.gapS(i, j, isForward ? board.gapS(s, q) : board.gapS(q, s));
      s = q;
      if (q < head && this.reach(j))
        seconds[j] = Math.max(atS, isForward ? this.waitsForS(j) : this.letsWaitS(j));
      else if (atS > seconds[j]!) seconds[j] = atS;
    }
    at[r] = s;
    return s !== begun;
  }

  /** Counts a route of `node`; true for the first one. */
  private reach(node: number): boolean {
    if (this.reachedIn[node] === this.pass) {
      this.times[node]! += 1;
      return false;
    }
    this.reachedIn[node] = this.pass;
    this.times[node] = 1;
    return true;
  }

  /** True where `node` was reached on all of its routes in this pass. */
  private isReached(node: number): boolean {
    return this.reachedIn[node] === this.pass && this.times[node] === this.problem.crewCount[node];
  }

  /** From egress until `node` may begin by its links, units and holds, as far as what it waits for was reached before. */
  private waitsForS(node: number): number {
    const { board, problem } = this;
    const { intoStart, into, from, weight } = problem.edges;
    let mostS = 0;
    for (let k = intoStart[node]!; k < intoStart[node + 1]!; k += 1)
      mostS = Math.max(mostS, this.afterS(from[into[k]!]!, node, weight[into[k]!]!));
    const end = problem.slotStart[node + 1]!;
    for (let s = problem.slotStart[node]! + problem.crewCount[node]!; s < end; s += 1) {
      const i = board.nodeOf[board.prev[s]!]!;
      mostS = Math.max(mostS, this.afterS(i, node, problem.lengthS[i]!));
    }
    if (board.holdsTo[node] === 0) return mostS;
    for (let h = board.holds; h-- > 0;)
      if (board.holdTo[h] === node)
        mostS = Math.max(mostS, this.afterS(board.holdFrom[h]!, node, board.holdS[h]!));
    return mostS;
  }

  /** From the start of `node` until all are back who wait for it, as waitsForS. */
  private letsWaitS(node: number): number {
    const { board, problem } = this;
    const { outStart, out, to, weight } = problem.edges;
    let mostS = 0;
    for (let k = outStart[node]!; k < outStart[node + 1]!; k += 1)
      mostS = Math.max(mostS, this.beforeS(node, to[out[k]!]!, weight[out[k]!]!));
    const end = problem.slotStart[node + 1]!;
    for (let s = problem.slotStart[node]! + problem.crewCount[node]!; s < end; s += 1)
      mostS = Math.max(mostS, this.beforeS(node, board.nodeOf[board.next[s]!]!, problem.lengthS[node]!));
    if (board.holdsFrom[node] === 0) return mostS;
    for (let h = board.holds; h-- > 0;)
      if (board.holdFrom[h] === node)
        mostS = Math.max(mostS, this.beforeS(node, board.holdTo[h]!, board.holdS[h]!));
    return mostS;
  }

  private afterS(from: number, node: number, seconds: number): number {
    return this.isReached(from) ? this.fromOutS[from]! + this.gapS(from, node, seconds) : 0;
  }

  private beforeS(node: number, to: number, seconds: number): number {
    return this.isReached(to) ? this.toBackS[to]! + this.gapS(node, to, seconds) : 0;
  }
}

/** True where every start of `a` is a whole multiple of the grid. */
function isOnGrid({ openStart, openFromS, gridS }: Problem, a: number): boolean {
  for (let k = openStart[a]!; k < openStart[a + 1]!; k += 1) if (openFromS[k]! % gridS !== 0) return false;
  return true;
}
