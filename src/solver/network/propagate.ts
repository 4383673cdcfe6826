import { gridFrom, gridTo } from "../../kernel/index.ts";
import { type Board, NO_FLOOR } from "./board.ts";
import { NEVER, type Problem } from "../problem/problem.ts";
import { UndoTrail } from "./trail.ts";

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

/** A start raised more often than this in one pass stands on a positive cycle: no solution. */
const MOST_RAISES = 48;

/** Work lists of one board's passes. */
export class Propagation {
  private readonly board: Board;
  private readonly problem: Problem;
  private readonly queue: Int32Array;
  private readonly queued: Uint8Array;
  private readonly raises: Int32Array;
  private readonly seen: Int32Array;
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
  private pass = 0;
  private first = 0;
  private length = 0;

  constructor(board: Board) {
    this.board = board;
    this.problem = board.problem;
    const size = board.problem.nodes;
    this.queue = new Int32Array(size);
    this.queued = new Uint8Array(size);
    this.raises = new Int32Array(size);
    this.seen = new Int32Array(size);
    this.dirty = new Uint8Array(board.problem.evas);
    this.trail = new UndoTrail(board);
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
      const floorS = board.floorS[a]!;
      if (problem.crewCount[a] === 0 || floorS > NO_FLOOR) if (!this.raise(a, floorS)) return this.giveUp();
    }
    for (let e = 0; e < problem.evas; e += 1) {
      const egress = problem.activities + 2 * e;
      if (problem.gapStart[e] === problem.gapStart[e + 1]) {
        if (placed[egress] === 1) return this.giveUp();
        earliest[egress] = NEVER;
        continue;
      }
      earliest[egress] = problem.gapFromS[problem.gapStart[e]!]!;
      earliest[egress + 1] = -NEVER;
      if (placed[egress] === 1) this.push(egress);
    }
    return this.raiseAll();
  }

  /**
   * Earliest starts of EVA `e` from scratch, with what stands elsewhere as a beginning: never too early, but what stands
   * elsewhere does not come earlier for it.
   */
  earliestOfEva(e: number): boolean {
    const { problem, board } = this;
    const { earliest, nodeOf, next, prev, placed } = board;
    const { intoStart, into, from, weight } = problem.edges;
    this.begin();
    const egress = problem.activities + 2 * e;
    earliest[egress] = problem.gapFromS[problem.gapStart[e]!]!;
    earliest[egress + 1] = -NEVER;
    for (let r = problem.routeStart[e]!; r < problem.routeStart[e + 1]!; r += 1)
      for (let s = next[board.head + r]!; s < board.head; s = next[s]!) earliest[nodeOf[s]!] = -NEVER;
    const pull = (node: number): boolean => {
      for (let k = intoStart[node]!; k < intoStart[node + 1]!; k += 1) {
        const x = into[k]!;
        const i = from[x]!;
        if (placed[i] === 1 && earliest[i]! > -NEVER && !this.raise(node, earliest[i]! + weight[x]!))
          return false;
      }
      return true;
    };
    if (!pull(egress)) return this.giveUp();
    this.push(egress);
    for (let r = problem.routeStart[e]!; r < problem.routeStart[e + 1]!; r += 1) {
      for (let s = next[board.head + r]!; s < board.head; s = next[s]!) {
        const a = nodeOf[s]!;
        if (s !== problem.slotStart[a]) continue;
        if (board.floorS[a]! > NO_FLOOR && !this.raise(a, board.floorS[a]!)) return this.giveUp();
        if (!pull(a)) return this.giveUp();
        for (let u = s + problem.crewCount[a]!; u < problem.slotStart[a + 1]!; u += 1) {
          const i = nodeOf[prev[u]!]!;
          if (i !== problem.source && board.evaOf[i] !== e)
            if (!this.raise(a, earliest[i]! + problem.lengthS[i]!)) return this.giveUp();
        }
      }
    }
    return this.raiseAll();
  }

  /**
   * All latest starts from scratch, those after which nobody comes back later than at the earliest where it is `asSoonBack`; call only
   * when earliest starts exist.
   */
  latestOfAll(asSoonBack = false): boolean {
    const { problem, board } = this;
    const { placed, latest } = board;
    this.begin();
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
      if (placed[egress] === 1) this.push(egress + 1);
    }
    for (let a = problem.activities - 1; a >= 0; a -= 1) {
      if (placed[a] === 0) continue;
      latest[a] = NEVER + 1;
      if (problem.crewCount[a] === 0 && !this.lower(a, NEVER)) return this.giveUp();
    }
    return this.lowerAll();
  }

  /** After `activity` was linked: raises it and what follows from it. */
  raiseFrom(activity: number): boolean {
    const { problem, board } = this;
    const { earliest } = board;
    this.begin();
    this.lead = -1;
    this.trail.raised(activity);
    earliest[activity] = -NEVER;
    const { intoStart, into, from, weight } = problem.edges;
    const e = board.evaOf[activity]!;
    const egress = problem.activities + 2 * e;
    if (e >= 0 && board.onEva[e] === 1) {
      this.trail.raised(egress);
      this.trail.raised(egress + 1);
      earliest[egress] = problem.gapFromS[problem.gapStart[e]!]!;
      earliest[egress + 1] = -NEVER;
      for (let k = intoStart[egress]!; k < intoStart[egress + 1]!; k += 1) {
        const x = into[k]!;
        if (board.placed[from[x]!] === 1)
          if (!this.raise(egress, earliest[from[x]!]! + weight[x]!)) return this.giveUp();
      }
      this.push(egress);
    }
    if (!this.raise(activity, board.floorS[activity]!)) return this.giveUp();
    for (let s = problem.slotStart[activity]!; s < problem.slotStart[activity + 1]!; s += 1) {
      const p = board.prev[s]!;
      if (!this.raise(activity, earliest[board.nodeOf[p]!]! + board.gapS(p, s))) return this.giveUp();
    }
    for (let k = intoStart[activity]!; k < intoStart[activity + 1]!; k += 1) {
      const x = into[k]!;
      if (board.placed[from[x]!] === 1)
        if (!this.raise(activity, earliest[from[x]!]! + weight[x]!)) return this.giveUp();
    }
    if (e >= 0 && !this.settleEarliest(e)) return this.giveUp();
    this.lead = activity;
    return this.raiseAll();
  }

  /**
   * After `activity` was linked: lowers it and what comes before it, and what comes before rests on the trail and holds from number
   * `firstHold` on.
   */
  lowerFrom(activity: number, firstHold = Infinity): boolean {
    const { problem, board } = this;
    const { latest } = board;
    this.begin();
    const e = board.evaOf[activity]!;
    const egress = problem.activities + 2 * e;
    const { outStart, out, to, weight } = problem.edges;
    if (e >= 0 && board.onEva[e] === 1) {
      this.trail.lowered(egress);
      this.trail.lowered(egress + 1);
      latest[egress + 1] = problem.gapToS[problem.gapStart[e + 1]! - 1]! - problem.lengthS[egress + 1]!;
      latest[egress] = NEVER;
      for (let k = outStart[egress + 1]!; k < outStart[egress + 2]!; k += 1) {
        const x = out[k]!;
        if (board.placed[to[x]!] === 1)
          if (!this.lower(egress + 1, latest[to[x]!]! - weight[x]!)) return this.giveUp();
      }
      this.push(egress + 1);
    }
    this.trail.lowered(activity);
    latest[activity] = NEVER + 1;
    if (!this.lower(activity, NEVER)) return this.giveUp();
    for (let s = problem.slotStart[activity]!; s < problem.slotStart[activity + 1]!; s += 1) {
      const q = board.next[s]!;
      if (!this.lower(activity, latest[board.nodeOf[q]!]! - board.gapS(s, q))) return this.giveUp();
    }
    for (let k = outStart[activity]!; k < outStart[activity + 1]!; k += 1) {
      const x = out[k]!;
      if (board.placed[to[x]!] === 1)
        if (!this.lower(activity, latest[to[x]!]! - weight[x]!)) return this.giveUp();
    }
    if (e >= 0 && !this.settleLatest(e)) return this.giveUp();
    if (!this.lowerBeforeWaits(firstHold)) return this.giveUp();
    return this.lowerAll();
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

  /** Asks for `seconds` of rest on arrival at `slot`. */
  rest(slot: number, seconds: number): void {
    this.trail.rested(slot);
    this.board.restS[slot] = seconds;
  }

  /** Begins a pass in which `raiseTo` may be called before `raiseAll`. */
  begin(): void {
    this.pass += 1;
    this.cause = -1;
    this.leadCause = -1;
  }

  /** Raises the earliest start of `node` to at least `atS`; false when that is impossible. */
  raise(node: number, atS: number): boolean {
    const { earliest } = this.board;
    if (atS <= earliest[node]!) return true;
    const { problem } = this;
    if (node < problem.activities) {
      let k = problem.openStart[node]!;
      const end = problem.openStart[node + 1]!;
      while (k < end && atS > problem.openToS[k]!) k += 1;
      if (k === end) return false;
      // Ends of stretches are on the grid, so that the next multiple is inside.
      const fromS = problem.openFromS[k]!;
      const startS = atS > fromS ? gridFrom(atS, problem.gridS) : fromS;
      if (
        this.bounded &&
        (startS > this.board.latest[node]! || (node === this.lead && this.comesRound(startS)))
      )
        return false;
      this.trail.raised(node);
      earliest[node] = startS;
    } else {
      if (this.bounded && atS > this.board.latest[node]!) return false;
      this.trail.raised(node);
      earliest[node] = atS;
      if (!this.settleEarliest((node - problem.activities) >> 1)) return false;
    }
    return this.note(node);
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

  /** Works the list of raised nodes off. */
  raiseAll(): boolean {
    const { board, problem } = this;
    const { earliest, next, nodeOf, restS, lane, placed } = board;
    const { lengthS, endsAt, beginsAt, places, legS, routes, activities, slotStart, edges } = problem;
    const anyEdge = edges.from.length > 0;
    while (this.length > 0) {
      const i = this.pop();
      this.cause = i;
      const doneS = earliest[i]! + lengthS[i]!;
      const row = endsAt[i]! * places;
      let s: number;
      let end: number;
      if (i < activities) {
        s = slotStart[i]!;
        end = slotStart[i + 1]!;
      } else {
        const e = (i - activities) >> 1;
        const isEgress = ((i - activities) & 1) === 0;
        s = isEgress ? board.head + problem.routeStart[e]! : 0;
        end = isEgress ? board.head + problem.routeStart[e + 1]! : 0;
        if (isEgress && !this.settleEarliest(e)) return this.giveUp();
      }
      for (; s < end; s += 1) {
        const q = next[s]!;
        const j = nodeOf[q]!;
        const r = lane[s]!;
        const atS = r < routes ? doneS + legS[r]![row + beginsAt[j]!]! + restS[q]! : doneS;
        // The sink is never raised: nothing is later.
        if (atS > earliest[j]! && !this.raise(j, atS)) return this.giveUp();
      }
      if (anyEdge) {
        for (let k = edges.outStart[i]!; k < edges.outStart[i + 1]!; k += 1) {
          const x = edges.out[k]!;
          const j = edges.to[x]!;
          const atS = earliest[i]! + edges.weight[x]!;
          if (placed[j] === 1 && atS > earliest[j]! && !this.raise(j, atS)) return this.giveUp();
        }
      }
      for (let h = board.holdsFrom[i] === 0 ? 0 : board.holds; h-- > 0;) {
        if (board.holdFrom[h] === i)
          if (!this.raise(board.holdTo[h]!, earliest[i]! + board.holdS[h]!)) return this.giveUp();
      }
    }
    return true;
  }

  private lower(node: number, atS: number): boolean {
    const { latest } = this.board;
    if (atS >= latest[node]!) return true;
    const { problem } = this;
    if (node < problem.activities) {
      let k = problem.openStart[node + 1]! - 1;
      const first = problem.openStart[node]!;
      while (k >= first && atS < problem.openFromS[k]!) k -= 1;
      if (k < first) return false;
      const toS = problem.openToS[k]!;
      this.trail.lowered(node);
      latest[node] = atS < toS ? gridTo(atS, problem.gridS) : toS;
    } else {
      this.trail.lowered(node);
      latest[node] = atS;
      if (!this.settleLatest((node - problem.activities) >> 1)) return false;
    }
    return this.note(node);
  }

  /** Lowers the latest starts of activities to at most those of `byS`, and what comes before them. */
  lowerTo(byS: Int32Array): boolean {
    const { activities } = this.problem;
    const { placed } = this.board;
    this.begin();
    for (let a = 0; a < activities; a += 1)
      if (placed[a] === 1 && !this.lower(a, byS[a]!)) return this.giveUp();
    return this.lowerAll();
  }

  private lowerAll(): boolean {
    const { board, problem } = this;
    const { latest, prev, nodeOf, restS, lane, placed } = board;
    const { lengthS, endsAt, beginsAt, places, legS, routes, activities, slotStart, edges } = problem;
    const anyEdge = edges.from.length > 0;
    while (this.length > 0) {
      const j = this.pop();
      const byS = latest[j]!;
      const column = beginsAt[j]!;
      let s: number;
      let end: number;
      if (j < activities) {
        s = slotStart[j]!;
        end = slotStart[j + 1]!;
      } else {
        const e = (j - activities) >> 1;
        const isBack = ((j - activities) & 1) === 1;
        s = isBack ? board.tail + problem.routeStart[e]! : 0;
        end = isBack ? board.tail + problem.routeStart[e + 1]! : 0;
        if (isBack && !this.settleLatest(e)) return this.giveUp();
      }
      for (; s < end; s += 1) {
        const p = prev[s]!;
        const i = nodeOf[p]!;
        const r = lane[s]!;
        const legs = r < routes ? legS[r]![endsAt[i]! * places + column]! + restS[s]! : 0;
        const atS = byS - legs - lengthS[i]!;
        // The source is never lowered: nothing is sooner.
        if (atS < latest[i]! && !this.lower(i, atS)) return this.giveUp();
      }
      if (anyEdge) {
        for (let k = edges.intoStart[j]!; k < edges.intoStart[j + 1]!; k += 1) {
          const x = edges.into[k]!;
          const i = edges.from[x]!;
          const atS = byS - edges.weight[x]!;
          if (placed[i] === 1 && atS < latest[i]! && !this.lower(i, atS)) return this.giveUp();
        }
      }
      for (let h = board.holdsTo[j] === 0 ? 0 : board.holds; h-- > 0;) {
        if (board.holdTo[h] === j)
          if (!this.lower(board.holdFrom[h]!, byS - board.holdS[h]!)) return this.giveUp();
      }
    }
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
    if (fromS > earliest[egress]!) {
      if (this.bounded && fromS > board.latest[egress]!) return false;
      this.trail.raised(egress);
      earliest[egress] = fromS;
      return this.note(egress);
    }
    return true;
  }

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
    if (byS < latest[egress + 1]!) {
      this.trail.lowered(egress + 1);
      latest[egress + 1] = byS;
      return this.note(egress + 1);
    }
    return true;
  }

  private note(node: number): boolean {
    const { activities } = this.problem;
    const e = node < activities ? this.board.evaOf[node]! : (node - activities) >> 1;
    if (e >= 0) this.dirty[e] = 1;
    if (this.seen[node] !== this.pass) {
      this.seen[node] = this.pass;
      this.raises[node] = 0;
    }
    if (++this.raises[node]! > MOST_RAISES) return false;
    this.push(node);
    return true;
  }

  private push(node: number): void {
    if (this.queued[node] === 1) return;
    this.queued[node] = 1;
    let at = this.first + this.length;
    if (at >= this.queue.length) at -= this.queue.length;
    this.queue[at] = node;
    this.length += 1;
  }

  private pop(): number {
    const node = this.queue[this.first]!;
    this.first += 1;
    if (this.first === this.queue.length) this.first = 0;
    this.length -= 1;
    this.queued[node] = 0;
    return node;
  }

  /** Forgets what was raised and not worked off. */
  drop(): void {
    while (this.length > 0) this.pop();
  }

  private giveUp(): false {
    while (this.length > 0) this.pop();
    return false;
  }
}
