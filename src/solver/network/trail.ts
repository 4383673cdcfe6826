import type { Board } from "./board.ts";

/** What a trail notes in: the board's own arrays. */
const EARLIEST = 0;
const LATEST = 1;

/** What was there before each change of a board's times, rests and holds while it is kept, so that a trial can be undone. */
export class UndoTrail {
  private readonly board: Board;
  private keeping = false;
  private count = 0;
  private kind: Uint8Array;
  private node: Int32Array;
  private oldS: Int32Array;
  private readonly slots: number[] = [];
  private readonly oldRestS: number[] = [];
  private firstHold = 0;

  constructor(board: Board) {
    this.board = board;
    const room = 4 * board.problem.nodes + 16;
    this.kind = new Uint8Array(room);
    this.node = new Int32Array(room);
    this.oldS = new Int32Array(room);
  }

  /** Begins to keep what is changed from here on. */
  keep(): void {
    this.keeping = true;
    this.count = 0;
    this.slots.length = 0;
    this.oldRestS.length = 0;
    this.firstHold = this.board.holds;
  }

  /** Holds that were there when keeping began. */
  get heldBefore(): number {
    return this.firstHold;
  }

  /** Rests asked for since keeping began. */
  get rests(): number {
    return this.slots.length;
  }

  restSlot(k: number): number {
    return this.slots[k]!;
  }

  /** To be called before the earliest start of `node` changes. */
  raised(node: number): void {
    if (this.keeping) this.push(EARLIEST, node, this.board.earliest[node]!);
  }

  /** To be called before the latest start of `node` changes. */
  lowered(node: number): void {
    if (this.keeping) this.push(LATEST, node, this.board.latest[node]!);
  }

  /** To be called before the rest at `slot` changes. */
  rested(slot: number): void {
    if (!this.keeping) return;
    this.slots.push(slot);
    this.oldRestS.push(this.board.restS[slot]!);
  }

  /** Lets what was changed stand. */
  commit(): void {
    this.keeping = false;
  }

  /** Undoes all changes since keeping began. */
  undo(): void {
    const { board } = this;
    for (let k = this.count; k-- > 0;)
      (this.kind[k] === EARLIEST ? board.earliest : board.latest)[this.node[k]!] = this.oldS[k]!;
    for (let k = this.slots.length; k-- > 0;) board.restS[this.slots[k]!] = this.oldRestS[k]!;
    board.cutHolds(this.firstHold);
    this.keeping = false;
  }

  /**
   * The least of the earliest starts that nodes of EVA `eva` but `activity` had before they were raised, Infinity when none was; marks the
   * routes on which one was in `touched`.
   */
  firstRaisedS(eva: number, activity: number, touched: Uint8Array): number {
    const { evaOf, problem } = this.board;
    const { activities } = problem;
    let leastS = Infinity;
    for (let k = 0; k < this.count; k += 1) {
      const node = this.node[k]!;
      if (this.kind[k] !== EARLIEST || node === activity) continue;
      const on = node < activities ? evaOf[node]! : (node - activities) >> 1;
      if (on !== eva) continue;
      this.markRoutes(node, eva, touched);
      if (this.oldS[k]! < leastS) leastS = this.oldS[k]!;
    }
    return leastS;
  }

  /** Marks the routes that `node` of EVA `eva` stands on: all of the EVA's for its ends. */
  private markRoutes(node: number, eva: number, touched: Uint8Array): void {
    const { problem, lane } = this.board;
    const { slotStart, crewCount, routeStart } = problem;
    if (node >= problem.activities) {
      touched.fill(1, routeStart[eva]!, routeStart[eva + 1]!);
      return;
    }
    const end = slotStart[node]! + crewCount[node]!;
    for (let s = slotStart[node]!; s < end; s += 1) touched[lane[s]!] = 1;
  }

  private push(kind: number, node: number, oldS: number): void {
    if (this.count === this.node.length) this.grow();
    this.kind[this.count] = kind;
    this.node[this.count] = node;
    this.oldS[this.count] = oldS;
    this.count += 1;
  }

  private grow(): void {
    const { kind, node, oldS } = this;
    const room = 2 * node.length;
    this.kind = new Uint8Array(room);
    this.kind.set(kind);
    this.node = new Int32Array(room);
    this.node.set(node);
    this.oldS = new Int32Array(room);
    this.oldS.set(oldS);
  }
}
