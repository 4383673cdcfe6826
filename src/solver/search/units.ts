import type { Board } from "../network/board.ts";
import { NEVER } from "../problem/problem.ts";

/** The gaps between uses of units of equipment. */
export class Units {
  /** Whether the units found last make another activity later. */
  pushes = false;
  private readonly board: Board;

  constructor(board: Board) {
    this.board = board;
  }

  /**
   * Puts each unit slot of `activity` into the chain gap that is free soonest at or after `atS`, where it is `gently` without making
   * anything later, and what it comes behind into `behind`; gives when all of them are, NEVER where one is not.
   */
  // eslint-disable-next-line sonarjs/cognitive-complexity -- the innermost loop: split, the search loses three iterations in a hundred
  putIn(activity: number, behind: Int32Array, atS: number, gently: boolean): number {
    const { board } = this;
    const { problem } = board;
    const crew = problem.crewCount[activity]!;
    const { next, nodeOf, earliest, latest } = board;
    const first = problem.slotStart[activity]!;
    const count = problem.slotStart[activity + 1]! - first;
    const lasts = problem.lengthS[activity]!;
    let allS = atS;
    this.pushes = false;
    for (let k = crew; k < count; k += 1) {
      const equipment = problem.slotEquipment[first + k]!;
      let bestS = NEVER;
      let best = -1;
      for (let c = problem.chainStart[equipment]!; c < problem.chainStart[equipment + 1]!; c += 1) {
        const head = board.head + problem.routes + c;
        if (this.isTaken(behind, crew, k, head)) continue;
        const tail = board.tail + problem.routes + c;
        for (let p = head; p !== tail; p = next[p]!) {
          const i = nodeOf[p]!;
          const freeS = p === head ? atS : Math.max(atS, earliest[i]! + problem.lengthS[i]!);
          if (freeS >= bestS) break;
          const q = next[p]!;
          if (q !== tail && freeS + lasts > (gently ? earliest : latest)[nodeOf[q]!]!) continue;
          bestS = freeS;
          best = p;
          break;
        }
      }
      if (best < 0) return NEVER;
      behind[k] = best;
      allS = Math.max(allS, bestS);
      if (board.next[best]! < board.tail && bestS + lasts > earliest[nodeOf[next[best]!]!]!)
        this.pushes = true;
    }
    return allS;
  }

  /** True when a unit slot before number `k` of this place already stands in the chain with this head. */
  private isTaken(behind: Int32Array, crew: number, k: number, head: number): boolean {
    const { lane } = this.board;
    for (let before = crew; before < k; before += 1) if (lane[behind[before]!] === lane[head]) return true;
    return false;
  }
}
