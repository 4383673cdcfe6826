import type { Board } from "./board.ts";
import { egressS } from "./rules/outing.ts";

/** One activity that is tried beside what stands: when its EVA may change at the soonest, and what is put back when it is refused. */
export class InsertionTrial {
  on = false;
  activity = -1;
  eva = -1;
  /** Its routes. */
  readonly routes: number[] = [];
  /** Egress of the EVA before, -Infinity where nobody went out; and when the first of its crew leaves what they do before. */
  outS = 0;
  leftS = 0;
  private readonly board: Board;
  private readonly versions: number[] = [];
  private evaVersion = 0;
  private state = 0;

  constructor(board: Board) {
    this.board = board;
  }

  /** To be called before `activity` is linked behind the slots `behind` on EVA `eva`. */
  begin(activity: number, behind: ArrayLike<number>, eva: number): void {
    const { board, routes, versions } = this;
    const { problem, lane, nodeOf, earliest } = board;
    const slots = problem.slotStart[activity + 1]! - problem.slotStart[activity]!;
    this.on = true;
    this.activity = activity;
    this.eva = eva;
    routes.length = 0;
    versions.length = 0;
    this.leftS = Infinity;
    for (let k = 0; k < slots; k += 1) {
      const p = behind[k]!;
      const r = lane[p]!;
      versions.push(board.version[r]!);
      if (r >= problem.routes) continue;
      routes.push(r);
      const doneS = p >= board.head ? -Infinity : earliest[nodeOf[p]!]! + problem.lengthS[nodeOf[p]!]!;
      this.leftS = Math.min(this.leftS, doneS);
    }
    this.outS = eva >= 0 && board.onEva[eva]! > 0 ? egressS(board, eva) : -Infinity;
    this.evaVersion = eva < 0 ? 0 : board.evaVersion[eva]!;
    this.state = board.state;
  }

  /** To be called after the activity was taken off again: the order is what it was, and so are its numbers. */
  restoreVersions(behind: ArrayLike<number>): void {
    const { board, versions } = this;
    for (let k = 0; k < versions.length; k += 1) board.version[board.lane[behind[k]!]!] = versions[k]!;
    if (this.eva >= 0) board.evaVersion[this.eva] = this.evaVersion;
    board.state = this.state;
  }
}
