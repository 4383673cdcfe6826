import { gridTo } from "../../kernel/index.ts";
import type { Board } from "./board.ts";
import { NEVER, type Problem } from "../problem/problem.ts";
import type { UndoTrail } from "./trail.ts";
import type { Worklist } from "./worklist.ts";

/** Latest starts, lowered step by step against time as earliest ones are raised with it: see propagate. */
export class LatestStarts {
  private readonly board: Board;
  private readonly problem: Problem;
  private readonly work: Worklist;
  private readonly trail: UndoTrail;
  /** Slots of the node that lowers others now, or the tails of its routes. */
  private firstSlot = 0;
  private endSlot = 0;

  constructor(board: Board, work: Worklist, trail: UndoTrail) {
    this.board = board;
    this.problem = board.problem;
    this.work = work;
    this.trail = trail;
  }

  /**
   * All latest starts from scratch, those after which nobody comes back later than at the earliest where it is `asSoonBack`; call only
   * when earliest starts exist.
   */
  ofAll(asSoonBack: boolean): boolean {
    const { problem, board } = this;
    const { placed, latest } = board;
    this.work.begin();
    for (let e = 0; e < problem.evas; e += 1) {
      const egress = problem.activities + 2 * e;
      const end = problem.gapStart[e + 1]!;
      if (problem.gapStart[e] === end) {
        latest[egress + 1] = -NEVER;
        continue;
      }
      latest[egress + 1] = asSoonBack
        ? board.earliest[egress + 1]!
        : problem.gapToS[end - 1]! - problem.lengthS[egress + 1]!;
      latest[egress] = NEVER;
      if (placed[egress] === 1) this.work.push(egress + 1);
    }
    for (let a = problem.activities - 1; a >= 0; a -= 1) {
      if (placed[a] === 0) continue;
      latest[a] = NEVER + 1;
      if (problem.crewCount[a] === 0 && !this.lower(a, NEVER)) return this.work.giveUp();
    }
    return this.lowerAll();
  }

  /**
   * After `activity` was linked: lowers it and what comes before it, and what comes before rests on the trail and holds from number
   * `firstHold` on.
   */
  from(activity: number, firstHold = Infinity): boolean {
    const { board } = this;
    this.work.begin();
    const e = board.evaOf[activity]!;
    const isFirst = e >= 0 && board.onEva[e] === 1;
    if (isFirst && !this.lowerBegunEva(e)) return this.work.giveUp();
    this.trail.lowered(activity);
    board.latest[activity] = NEVER + 1;
    const lowered =
      this.lower(activity, NEVER) &&
      this.lowerBeforeNeighbours(activity) &&
      this.lowerOverEdgesOutOf(activity) &&
      (e < 0 || this.settleLatest(e)) &&
      this.lowerBeforeWaits(firstHold);
    return lowered ? this.lowerAll() : this.work.giveUp();
  }

  /** Lowers the latest starts of activities to at most those of `byS`, and what comes before them. */
  to(byS: Int32Array): boolean {
    const { activities } = this.problem;
    const { placed } = this.board;
    this.work.begin();
    for (let a = 0; a < activities; a += 1)
      if (placed[a] === 1 && !this.lower(a, byS[a]!)) return this.work.giveUp();
    return this.lowerAll();
  }

  /** Both ends of EVA `e` from scratch, on which something stands for the first time. */
  private lowerBegunEva(e: number): boolean {
    const { problem, board, trail } = this;
    const egress = problem.activities + 2 * e;
    trail.lowered(egress);
    trail.lowered(egress + 1);
    board.latest[egress + 1] = problem.gapToS[problem.gapStart[e + 1]! - 1]! - problem.lengthS[egress + 1]!;
    board.latest[egress] = NEVER;
    if (!this.lowerOverEdgesOutOf(egress + 1)) return false;
    this.work.push(egress + 1);
    return true;
  }

  /** Lowers `activity` by what stands right after it on its routes and chains. */
  private lowerBeforeNeighbours(activity: number): boolean {
    const { problem, board } = this;
    const { latest, nodeOf, next } = board;
    for (let s = problem.slotStart[activity]!; s < problem.slotStart[activity + 1]!; s += 1) {
      const q = next[s]!;
      if (!this.lower(activity, latest[nodeOf[q]!]! - board.gapS(s, q))) return false;
    }
    return true;
  }

  /** Lowers `node` by the edges from it to what is placed. */
  private lowerOverEdgesOutOf(node: number): boolean {
    const { placed, latest } = this.board;
    const { outStart, out, to, weight } = this.problem.edges;
    for (let k = outStart[node]!; k < outStart[node + 1]!; k += 1) {
      const x = out[k]!;
      if (placed[to[x]!] === 1 && !this.lower(node, latest[to[x]!]! - weight[x]!)) return false;
    }
    return true;
  }

  /** Lowers what comes right before the rests on the trail and the holds from number `firstHold` on. */
  private lowerBeforeWaits(firstHold: number): boolean {
    const { board } = this;
    const { latest, nodeOf, prev } = board;
    for (let k = 0; k < this.trail.rests; k += 1) {
      const slot = this.trail.restSlot(k);
      const before = prev[slot]!;
      if (!this.lower(nodeOf[before]!, latest[nodeOf[slot]!]! - board.gapS(before, slot))) return false;
    }
    for (let h = firstHold; h < board.holds; h += 1)
      if (!this.lower(board.holdFrom[h]!, latest[board.holdTo[h]!]! - board.holdS[h]!)) return false;
    return true;
  }

  /** Lowers the latest start of `node` to at most `atS`; false when that is impossible. */
  private lower(node: number, atS: number): boolean {
    if (atS >= this.board.latest[node]!) return true;
    return node < this.problem.activities ? this.lowerActivity(node, atS) : this.lowerEndOfEva(node, atS);
  }

  /** Lowers an activity to the last start at or before `atS` that may be chosen. */
  private lowerActivity(node: number, atS: number): boolean {
    const { problem } = this;
    let k = problem.openStart[node + 1]! - 1;
    const first = problem.openStart[node]!;
    while (k >= first && atS < problem.openFromS[k]!) k -= 1;
    if (k < first) return false;
    const toS = problem.openToS[k]!;
    this.trail.lowered(node);
    this.board.latest[node] = atS < toS ? gridTo(atS, problem.gridS) : toS;
    return this.work.note(node);
  }

  /** Lowers an egress or the moment at which all are back. */
  private lowerEndOfEva(node: number, atS: number): boolean {
    this.trail.lowered(node);
    this.board.latest[node] = atS;
    return this.settleLatest((node - this.problem.activities) >> 1) && this.work.note(node);
  }

  /** Works the list of lowered nodes off. */
  private lowerAll(): boolean {
    const { board, problem, work } = this;
    const { latest, prev, nodeOf, restS, lane } = board;
    const { lengthS, endsAt, beginsAt, places, legS, routes } = problem;
    while (work.length > 0) {
      const j = work.pop();
      const byS = latest[j]!;
      const column = beginsAt[j]!;
      if (!this.findSlots(j)) return work.giveUp();
      for (let s = this.firstSlot; s < this.endSlot; s += 1) {
        const i = nodeOf[prev[s]!]!;
        const r = lane[s]!;
        const legs = r < routes ? legS[r]![endsAt[i]! * places + column]! + restS[s]! : 0;
        const atS = byS - legs - lengthS[i]!;
        // The source is never lowered: nothing is sooner.
        if (atS < latest[i]! && !this.lower(i, atS)) return work.giveUp();
      }
      if (!this.lowerOverEdgesInto(j, byS) || !this.lowerOverHolds(j, byS)) return work.giveUp();
    }
    return true;
  }

  /** Finds the slots before which stands what node `j` lowers; false where its EVA then fits in no gap. */
  private findSlots(j: number): boolean {
    const { problem, board } = this;
    const { activities, slotStart, routeStart } = problem;
    if (j < activities) {
      this.firstSlot = slotStart[j]!;
      this.endSlot = slotStart[j + 1]!;
      return true;
    }
    this.firstSlot = 0;
    this.endSlot = 0;
    const isBack = ((j - activities) & 1) === 1;
    if (!isBack) return true;
    const e = (j - activities) >> 1;
    this.firstSlot = board.tail + routeStart[e]!;
    this.endSlot = board.tail + routeStart[e + 1]!;
    return this.settleLatest(e);
  }

  /** Lowers what is placed and comes before node `j` by an edge. */
  private lowerOverEdgesInto(j: number, byS: number): boolean {
    const { placed, latest } = this.board;
    const { intoStart, into, from, weight } = this.problem.edges;
    for (let k = intoStart[j]!; k < intoStart[j + 1]!; k += 1) {
      const x = into[k]!;
      const i = from[x]!;
      const atS = byS - weight[x]!;
      if (placed[i] === 1 && atS < latest[i]! && !this.lower(i, atS)) return false;
    }
    return true;
  }

  /** Lowers what node `j` is held back behind. */
  private lowerOverHolds(j: number, byS: number): boolean {
    const { board } = this;
    if (board.holdsTo[j] === 0) return true;
    for (let h = board.holds; h-- > 0;)
      if (board.holdTo[h] === j && !this.lower(board.holdFrom[h]!, byS - board.holdS[h]!)) return false;
    return true;
  }

  /** Moves all back down into the last gap in which egress still is, and near enough to egress. */
  private settleLatest(e: number): boolean {
    const { problem, board } = this;
    const { latest } = board;
    const egress = problem.activities + 2 * e;
    let g = problem.gapStart[e + 1]! - 1;
    const first = problem.gapStart[e]!;
    while (g >= first && latest[egress]! < problem.gapFromS[g]!) g -= 1;
    if (g < first || board.allowedS[e]! < 0) return false;
    const byS =
      Math.min(problem.gapToS[g]!, latest[egress]! + board.allowedS[e]!) - problem.lengthS[egress + 1]!;
    if (byS >= latest[egress + 1]!) return true;
    this.trail.lowered(egress + 1);
    latest[egress + 1] = byS;
    return this.work.note(egress + 1);
  }
}
