import { gridFrom } from "../../kernel/index.ts";
import { type Board, NO_FLOOR } from "./board.ts";
import { NEVER, type Problem } from "../problem/problem.ts";
import { LatestStarts } from "./latest.ts";
import { UndoTrail } from "./trail.ts";
import { Worklist } from "./worklist.ts";

/**
 * Earliest and latest starts, kept by label correcting over routes, chains, edges and holds.
 *
 * Every constraint is "start(j) >= start(i) + w", a start inside a union of stretches and on the grid, or an EVA inside
 * one of its gaps. All of these keep the least of two solutions a solution, so raising starts step by step ends at the
 * least solution, or shows that there is none (Dechter, Meiri & Pearl 1991 for the network; windows with gaps keep it,
 * and so does a grid, which is nothing but a window of many short stretches: the least of two starts on it is one of the
 * two). So a start is raised to the next one that may be chosen and lowered to the last one before. Egress and ingress
 * follow from tasks and ways (S3) and are on no grid.
 */

/** The times of one board: earliest starts here, latest ones in LatestStarts. */
export class Propagation {
  private readonly board: Board;
  private readonly problem: Problem;
  private readonly work: Worklist;
  private readonly latest: LatestStarts;
  /** 1 for EVAs whose times were raised or lowered since somebody cleared it. */
  readonly dirty: Uint8Array;
  /** True while latest starts are those of a looser network, so that whatever is raised over its own is impossible. */
  bounded = false;
  /** What was there before each change while it is kept. */
  readonly trail: UndoTrail;
  /**
   * What was linked last, and by how much and by which node it was raised last in this pass: where that comes round unchanged it stands on a
   * positive cycle. A window with gaps may break such a cycle later on, so that it only counts where places may be passed over.
   */
  private lead = -1;
  private leadByS = 0;
  private leadCause = -1;
  /** The node that raises others now; -1 for none. */
  private cause = -1;
  /** Its slots, or the heads of its routes. */
  private firstSlot = 0;
  private endSlot = 0;

  constructor(board: Board) {
    this.board = board;
    this.problem = board.problem;
    this.work = new Worklist(board);
    this.dirty = this.work.dirty;
    this.trail = new UndoTrail(board);
    this.latest = new LatestStarts(board, this.work, this.trail);
  }

  /** All earliest starts from scratch; false when there is no solution. */
  earliestOfAll(): boolean {
    const { problem, board } = this;
    const { placed, earliest } = board;
    this.begin();
    for (let a = 0; a < problem.activities; a += 1) {
      if (placed[a] === 0) continue;
      // Crew activities are reached from their egress; below everything, so that reaching one always counts.
      earliest[a] = -NEVER;
      if (problem.crewCount[a]! > 0 && board.floorS[a]! <= NO_FLOOR) continue;
      if (!this.raise(a, board.floorS[a]!)) return this.work.giveUp();
    }
    for (let e = 0; e < problem.evas; e += 1) if (!this.raiseEva(e)) return this.work.giveUp();
    return this.raiseAll();
  }

  /** Both ends of EVA `e` from scratch; false where something stands on it and nobody can ever go out. */
  private raiseEva(e: number): boolean {
    const { problem, board } = this;
    const { placed, earliest } = board;
    const egress = problem.activities + 2 * e;
    const isPlaced = placed[egress] === 1;
    if (problem.gapStart[e] === problem.gapStart[e + 1]) {
      earliest[egress] = NEVER;
      return !isPlaced;
    }
    earliest[egress] = problem.gapFromS[problem.gapStart[e]!]!;
    earliest[egress + 1] = -NEVER;
    if (isPlaced) this.work.push(egress);
    return true;
  }

  /**
   * Earliest starts of EVA `e` from scratch, with what stands elsewhere as a beginning: never too early, but what stands
   * elsewhere does not come earlier for it.
   */
  earliestOfEva(e: number): boolean {
    const { problem, board } = this;
    const { earliest, nodeOf, next } = board;
    const { routeStart, slotStart } = problem;
    this.begin();
    const egress = problem.activities + 2 * e;
    earliest[egress] = problem.gapFromS[problem.gapStart[e]!]!;
    earliest[egress + 1] = -NEVER;
    for (let r = routeStart[e]!; r < routeStart[e + 1]!; r += 1)
      for (let s = next[board.head + r]!; s < board.head; s = next[s]!) earliest[nodeOf[s]!] = -NEVER;
    if (!this.raiseOverEdgesInto(egress)) return this.work.giveUp();
    this.work.push(egress);
    for (let r = routeStart[e]!; r < routeStart[e + 1]!; r += 1)
      for (let s = next[board.head + r]!; s < board.head; s = next[s]!) {
        const a = nodeOf[s]!;
        if (s === slotStart[a] && !this.raiseFromElsewhere(a)) return this.work.giveUp();
      }
    return this.raiseAll();
  }

  /** Raises `activity` by its floor, by its edges, and by those before it on its units of equipment that are not on its EVA. */
  private raiseFromElsewhere(activity: number): boolean {
    const { problem, board } = this;
    const { earliest, evaOf, nodeOf, prev } = board;
    const floorS = board.floorS[activity]!;
    if (floorS > NO_FLOOR && !this.raise(activity, floorS)) return false;
    if (!this.raiseOverEdgesInto(activity)) return false;
    const end = problem.slotStart[activity + 1]!;
    for (let u = problem.slotStart[activity]! + problem.crewCount[activity]!; u < end; u += 1) {
      const i = nodeOf[prev[u]!]!;
      if (i === problem.source || evaOf[i] === evaOf[activity]) continue;
      if (!this.raise(activity, earliest[i]! + problem.lengthS[i]!)) return false;
    }
    return true;
  }

  /** Raises `node` by the edges into it from what is placed and has a start. */
  private raiseOverEdgesInto(node: number): boolean {
    const { placed, earliest } = this.board;
    const { intoStart, into, from, weight } = this.problem.edges;
    for (let k = intoStart[node]!; k < intoStart[node + 1]!; k += 1) {
      const x = into[k]!;
      const i = from[x]!;
      if (placed[i] === 0 || earliest[i] === -NEVER) continue;
      if (!this.raise(node, earliest[i]! + weight[x]!)) return false;
    }
    return true;
  }

  /** After `activity` was linked: raises it and what follows from it. */
  raiseFrom(activity: number): boolean {
    const { board } = this;
    this.begin();
    this.lead = -1;
    this.trail.raised(activity);
    board.earliest[activity] = -NEVER;
    const e = board.evaOf[activity]!;
    const isFirst = e >= 0 && board.onEva[e] === 1;
    if (isFirst && !this.raiseBegunEva(e)) return this.work.giveUp();
    const raised =
      this.raise(activity, board.floorS[activity]!) &&
      this.raiseBehindNeighbours(activity) &&
      this.raiseOverEdgesInto(activity);
    if (!raised || (e >= 0 && !this.settleEarliest(e))) return this.work.giveUp();
    this.lead = activity;
    return this.raiseAll();
  }

  /** Both ends of EVA `e` from scratch, on which something stands for the first time. */
  private raiseBegunEva(e: number): boolean {
    const { problem, board, trail } = this;
    const egress = problem.activities + 2 * e;
    trail.raised(egress);
    trail.raised(egress + 1);
    board.earliest[egress] = problem.gapFromS[problem.gapStart[e]!]!;
    board.earliest[egress + 1] = -NEVER;
    if (!this.raiseOverEdgesInto(egress)) return false;
    this.work.push(egress);
    return true;
  }

  /** Raises `activity` by what stands right before it on its routes and chains. */
  private raiseBehindNeighbours(activity: number): boolean {
    const { problem, board } = this;
    const { earliest, nodeOf, prev } = board;
    for (let s = problem.slotStart[activity]!; s < problem.slotStart[activity + 1]!; s += 1) {
      const p = prev[s]!;
      if (!this.raise(activity, earliest[nodeOf[p]!]! + board.gapS(p, s))) return false;
    }
    return true;
  }

  /**
   * All latest starts from scratch, those after which nobody comes back later than at the earliest where it is `asSoonBack`; call only
   * when earliest starts exist.
   */
  latestOfAll(asSoonBack = false): boolean {
    return this.latest.ofAll(asSoonBack);
  }

  /**
   * After `activity` was linked: lowers it and what comes before it, and what comes before rests on the trail and holds from number
   * `firstHold` on.
   */
  lowerFrom(activity: number, firstHold = Infinity): boolean {
    return this.latest.from(activity, firstHold);
  }

  /** Lowers the latest starts of activities to at most those of `byS`, and what comes before them. */
  lowerTo(byS: Int32Array): boolean {
    return this.latest.to(byS);
  }

  /** Asks for `seconds` of rest on arrival at `slot`. */
  rest(slot: number, seconds: number): void {
    this.trail.rested(slot);
    this.board.restS[slot] = seconds;
  }

  /** Begins a pass in which `raiseTo` may be called before `raiseAll`. */
  begin(): void {
    this.work.begin();
    this.cause = -1;
    this.leadCause = -1;
  }

  /** Raises the earliest start of `node` to at least `atS`; false when that is impossible. */
  raise(node: number, atS: number): boolean {
    if (atS <= this.board.earliest[node]!) return true;
    return node < this.problem.activities ? this.raiseActivity(node, atS) : this.raiseEndOfEva(node, atS);
  }

  /** Raises an activity to the first start at or after `atS` that may be chosen. */
  private raiseActivity(node: number, atS: number): boolean {
    const { problem } = this;
    let k = problem.openStart[node]!;
    const end = problem.openStart[node + 1]!;
    while (k < end && atS > problem.openToS[k]!) k += 1;
    if (k === end) return false;
    // Ends of stretches are on the grid, so that the next multiple is inside.
    const fromS = problem.openFromS[k]!;
    const startS = atS > fromS ? gridFrom(atS, problem.gridS) : fromS;
    if (this.bounded && this.isTooLate(node, startS)) return false;
    this.trail.raised(node);
    this.board.earliest[node] = startS;
    return this.work.note(node);
  }

  /** Raises an egress or the moment at which all are back. */
  private raiseEndOfEva(node: number, atS: number): boolean {
    if (this.bounded && atS > this.board.latest[node]!) return false;
    this.trail.raised(node);
    this.board.earliest[node] = atS;
    return this.settleEarliest((node - this.problem.activities) >> 1) && this.work.note(node);
  }

  /** True when an activity starts too late at `startS`, or goes round on a positive cycle. */
  private isTooLate(node: number, startS: number): boolean {
    return startS > this.board.latest[node]! || (node === this.lead && this.comesRound(startS));
  }

  /** True when the lead is raised to `startS` by what raised it last, and by as much. */
  private comesRound(startS: number): boolean {
    if (this.cause < 0) return false;
    const byS = startS - this.board.earliest[this.lead]!;
    if (byS === this.leadByS && this.cause === this.leadCause) return true;
    this.leadByS = byS;
    this.leadCause = this.cause;
    return false;
  }

  /** Works the list of raised nodes off. Lanes are gone along here: a call for each node costs one in thirty iterations of the search. */
  raiseAll(): boolean {
    const { board, problem, work } = this;
    const { earliest, next, nodeOf, restS, lane } = board;
    const { lengthS, endsAt, beginsAt, places, legS, routes } = problem;
    while (work.length > 0) {
      const i = work.pop();
      this.cause = i;
      const doneS = earliest[i]! + lengthS[i]!;
      const row = endsAt[i]! * places;
      if (!this.findSlots(i)) return work.giveUp();
      for (let s = this.firstSlot; s < this.endSlot; s += 1) {
        const q = next[s]!;
        const j = nodeOf[q]!;
        const r = lane[s]!;
        const atS = r < routes ? doneS + legS[r]![row + beginsAt[j]!]! + restS[q]! : doneS;
        // The sink is never raised: nothing is later.
        if (atS > earliest[j]! && !this.raise(j, atS)) return work.giveUp();
      }
      if (!this.raiseOverEdgesOutOf(i) || !this.raiseOverHolds(i)) return work.giveUp();
    }
    return true;
  }

  /** Finds the slots behind which stands what node `i` raises; false where its EVA then fits in no gap. */
  private findSlots(i: number): boolean {
    const { problem, board } = this;
    const { activities, slotStart, routeStart } = problem;
    if (i < activities) {
      this.firstSlot = slotStart[i]!;
      this.endSlot = slotStart[i + 1]!;
      return true;
    }
    this.firstSlot = 0;
    this.endSlot = 0;
    const isEgress = ((i - activities) & 1) === 0;
    if (!isEgress) return true;
    const e = (i - activities) >> 1;
    this.firstSlot = board.head + routeStart[e]!;
    this.endSlot = board.head + routeStart[e + 1]!;
    return this.settleEarliest(e);
  }

  /** Raises what is placed and follows node `i` by an edge. */
  private raiseOverEdgesOutOf(i: number): boolean {
    const { earliest, placed } = this.board;
    const { outStart, out, to, weight } = this.problem.edges;
    for (let k = outStart[i]!; k < outStart[i + 1]!; k += 1) {
      const x = out[k]!;
      const j = to[x]!;
      const atS = earliest[i]! + weight[x]!;
      if (placed[j] === 1 && atS > earliest[j]! && !this.raise(j, atS)) return false;
    }
    return true;
  }

  /** Raises what is held back until some time after node `i`. */
  private raiseOverHolds(i: number): boolean {
    const { board } = this;
    if (board.holdsFrom[i] === 0) return true;
    for (let h = board.holds; h-- > 0;)
      if (board.holdFrom[h] === i && !this.raise(board.holdTo[h]!, board.earliest[i]! + board.holdS[h]!))
        return false;
    return true;
  }

  /** Moves egress up into the first gap that still holds the whole EVA, and near enough to all back. */
  private settleEarliest(e: number): boolean {
    const { problem, board } = this;
    const { earliest } = board;
    const egress = problem.activities + 2 * e;
    const doneS = earliest[egress + 1]! + problem.lengthS[egress + 1]!;
    let g = problem.gapStart[e]!;
    const end = problem.gapStart[e + 1]!;
    while (g < end && (doneS > problem.gapToS[g]! || earliest[egress]! > problem.gapToS[g]!)) g += 1;
    if (g === end || board.allowedS[e]! < 0) return false;
    const fromS = Math.max(problem.gapFromS[g]!, doneS - board.allowedS[e]!);
    if (fromS <= earliest[egress]!) return true;
    if (this.bounded && fromS > board.latest[egress]!) return false;
    this.trail.raised(egress);
    earliest[egress] = fromS;
    return this.work.note(egress);
  }

  /** Forgets what was raised and not worked off. */
  drop(): void {
    this.work.giveUp();
  }
}
