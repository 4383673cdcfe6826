import type { Board } from "../network/board.ts";

/** The places of one route, side by side: what goes before each, what comes after it, and its slack. */
export interface Strip {
  /** Of the route where slack alone decides, else of the board. */
  version: number;
  count: number;
  readonly slot: Int32Array;
  readonly leftS: Int32Array;
  readonly row: Int32Array;
  readonly latestS: Int32Array;
  readonly column: Int32Array;
  readonly acrossS: Int32Array;
  readonly nextS: Int32Array;
  /** Least time from egress to when what goes before is done, and from the start of what comes after until all are back. */
  readonly fromOutS: Int32Array;
  readonly toBackS: Int32Array;
}

/** The routes of a board laid out flat for scanning. */
export class Strips {
  private readonly board: Board;
  private readonly strips: readonly Strip[];

  constructor(board: Board) {
    this.board = board;
    const { problem } = board;
    const room = problem.activities + 1;
    this.strips = Array.from({ length: problem.routes }, () => ({
      version: -1,
      count: 0,
      slot: new Int32Array(room),
      leftS: new Int32Array(room),
      row: new Int32Array(room),
      latestS: new Int32Array(room),
      column: new Int32Array(room),
      acrossS: new Int32Array(room),
      nextS: new Int32Array(room),
      fromOutS: new Int32Array(room),
      toBackS: new Int32Array(room),
    }));
  }

  /** Route `r`, made anew when its order has changed. */
  of(r: number): Strip {
    const { board } = this;
    const { problem } = board;
    const strip = this.strips[r]!;
    const version = problem.checkLevel === "slack" ? board.version[r]! : board.state;
    if (strip.version === version) return strip;
    const { next, nodeOf, earliest, latest } = board;
    const { lengthS, endsAt, beginsAt, places } = problem;
    const legs = problem.legS[r]!;
    const tail = board.tail + r;
    let k = 0;
    let goneS = 0;
    for (let p = board.head + r; p !== tail; p = next[p]!) {
      const q = next[p]!;
      const i = nodeOf[p]!;
      const j = nodeOf[q]!;
      strip.slot[k] = p;
      strip.fromOutS[k] = goneS + lengthS[i]!;
      goneS += board.gapS(p, q);
      // From egress to here, until the whole is known.
      strip.toBackS[k] = goneS;
      strip.leftS[k] = earliest[i]! + lengthS[i]!;
      strip.row[k] = endsAt[i]! * places;
      strip.latestS[k] = latest[j]!;
      strip.column[k] = beginsAt[j]!;
      strip.acrossS[k] = legs[strip.row[k]! + strip.column[k]!]!;
      strip.nextS[k] = q === tail ? strip.leftS[k]! + strip.acrossS[k]! : earliest[j]!;
      k += 1;
    }
    strip.count = k;
    while (k-- > 0) strip.toBackS[k] = goneS - strip.toBackS[k]!;
    strip.version = version;
    return strip;
  }

  /** Route `r` as it was laid out last. */
  at(r: number): Strip {
    return this.strips[r]!;
  }
}
