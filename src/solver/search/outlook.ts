import type { Board } from "../network/board.ts";
import { NEVER } from "../problem/problem.ts";
import type { Strips } from "./strips.ts";

/**
 * What rules out a place before it is tried: that the EVA gets too long, or the others stay too far away, whatever is done. A place is a slot
 * to come behind and a position in the strip for each of the routes that begin at number `at` of the choices.
 */
export class Outlook {
  private readonly board: Board;
  private readonly strips: Strips;
  private readonly behind: Int32Array;
  private readonly places: Int32Array;

  constructor(board: Board, strips: Strips, behind: Int32Array, places: Int32Array) {
    this.board = board;
    this.strips = strips;
    this.behind = behind;
    this.places = places;
  }

  /**
   * False where with the activity at its place the EVA takes longer than what its suits then carry allows: back no sooner than now and
   * than straight on from here, egress no later than may be and than it takes to get here in time.
   */
  lastsLongEnough(activity: number, at: number, openS: number, byS: number): boolean {
    const { board } = this;
    const { problem } = board;
    const crew = problem.crewCount[activity]!;
    const eva = problem.evaOfRoute[problem.choiceRoutes[at]!]!;
    const egress = problem.activities + 2 * eva;
    const begin = problem.beginsAt[activity]!;
    const lasts = problem.lengthS[activity]!;
    const own = problem.endsAt[activity]! * problem.places;
    let backS = board.onEva[eva] === 0 ? 0 : board.earliest[egress + 1]!;
    let outByS = board.onEva[eva] === 0 ? NEVER : board.latest[egress]!;
    let allowedS = board.allowedS[eva]!;
    let longestS = 0;
    for (let level = 0; level < crew; level += 1) {
      const r = problem.choiceRoutes[at + level]!;
      const strip = this.strips.at(r);
      const k = this.places[level]!;
      const legs = problem.legS[r]!;
      const intoS = strip.fromOutS[k]! + legs[strip.row[k]! + begin]!;
      const onS = lasts + legs[own + strip.column[k]!]! + strip.toBackS[k]!;
      backS = Math.max(backS, openS + onS);
      outByS = Math.min(outByS, byS - intoS);
      longestS = Math.max(longestS, intoS + onS);
      allowedS = Math.min(allowedS, board.allowedWith(activity, r, this.behind[level]!));
    }
    const inS = problem.lengthS[egress + 1]!;
    return longestS + inS <= allowedS && backS + inS - allowedS <= outByS;
  }

  /** False where some other member of the EVA is too far away for sure when the activity begins, or when it is done. */
  othersComeNear(activity: number, at: number, openS: number, byS: number): boolean {
    const { problem } = this.board;
    const crew = problem.crewCount[activity]!;
    const eva = problem.evaOfRoute[problem.choiceRoutes[at]!]!;
    const lasts = problem.lengthS[activity]!;
    for (let r = problem.routeStart[eva]!; r < problem.routeStart[eva + 1]!; r += 1) {
      let joins = false;
      for (let level = 0; level < crew; level += 1) joins ||= problem.choiceRoutes[at + level] === r;
      if (joins) continue;
      if (!this.comesNear(r, problem.beginsAt[activity]!, openS, byS)) return false;
      if (!this.comesNear(r, problem.endsAt[activity]!, openS + lasts, byS + lasts)) return false;
    }
    return true;
  }

  /**
   * True when who is on route `r` may be near enough to `place` at some moment from `fromS` to `byS`: of a way of so many metres no point is
   * nearer than half of what the distances of its ends are more than those.
   */
  private comesNear(r: number, place: number, fromS: number, byS: number): boolean {
    const { problem, nodeOf } = this.board;
    const { places, legM, lengthS, beginsAt, innerM, activities } = problem;
    const { straightM, apartM } = problem.limits;
    const { count, slot, leftS, row, latestS, column } = this.strips.of(r);
    const from = place * places;
    for (let k = 0; k < count; k += 1) {
      if (latestS[k]! < fromS) continue;
      const node = nodeOf[slot[k]!]!;
      if (k > 0 && leftS[k]! - lengthS[node]! > byS) return false;
      const endM = straightM[from + row[k]! / places]!;
      const wayM = legM[row[k]! + column[k]!]!;
      if ((endM + straightM[from + column[k]!]! - wayM) / 2 <= apartM) return true;
      if (node < activities && (straightM[from + beginsAt[node]!]! + endM - innerM[node]!) / 2 <= apartM)
        return true;
    }
    return false;
  }
}
