import type { Board } from "./board.ts";

/** A start raised or lowered more often than this in one pass stands on a positive cycle: no solution. */
const MOST_CHANGES = 48;

/** Nodes whose starts changed in a pass and whose neighbours are still to be looked at, first in, first out. */
export class Worklist {
  /** 1 for EVAs whose times were raised or lowered since somebody cleared it. */
  readonly dirty: Uint8Array;
  /** Nodes that wait. */
  length = 0;
  private readonly board: Board;
  private readonly activities: number;
  private readonly queue: Int32Array;
  private readonly queued: Uint8Array;
  private first = 0;
  /** By node: changes in the pass that it was changed in last, and which that was. */
  private readonly changes: Int32Array;
  private readonly changedIn: Int32Array;
  private pass = 0;

  constructor(board: Board) {
    const { nodes, evas, activities } = board.problem;
    this.board = board;
    this.activities = activities;
    this.queue = new Int32Array(nodes);
    this.queued = new Uint8Array(nodes);
    this.changes = new Int32Array(nodes);
    this.changedIn = new Int32Array(nodes);
    this.dirty = new Uint8Array(evas);
  }

  /** Begins a pass: changes are counted anew. */
  begin(): void {
    this.pass += 1;
  }

  /** Puts a node that was changed on the list; false when that happened too often. */
  note(node: number): boolean {
    const { activities } = this;
    const e = node < activities ? this.board.evaOf[node]! : (node - activities) >> 1;
    if (e >= 0) this.dirty[e] = 1;
    if (this.changedIn[node] !== this.pass) {
      this.changedIn[node] = this.pass;
      this.changes[node] = 0;
    }
    if (++this.changes[node]! > MOST_CHANGES) return false;
    this.push(node);
    return true;
  }

  push(node: number): void {
    if (this.queued[node] === 1) return;
    this.queued[node] = 1;
    let at = this.first + this.length;
    if (at >= this.queue.length) at -= this.queue.length;
    this.queue[at] = node;
    this.length += 1;
  }

  pop(): number {
    const node = this.queue[this.first]!;
    this.first += 1;
    if (this.first === this.queue.length) this.first = 0;
    this.length -= 1;
    this.queued[node] = 0;
    return node;
  }

  /** Forgets what was not worked off; gives false, as what gave up does. */
  giveUp(): false {
    while (this.length > 0) this.pop();
    return false;
  }
}
