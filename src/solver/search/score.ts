import type { Board } from "../network/board.ts";

/** What the search compares, in RULES.md's order as far as it is decided while searching; no breach ever stands. */
export interface Value {
  mustOut: number;
  worth: number;
  /** Sum of how long after its EVA may begin each route ends, s: the tie-breaker while searching. */
  endsS: number;
}

/** Reads the value of a board into `value`. */
export function readValue(board: Board, value: Value): void {
  const { problem, prev, nodeOf, earliest } = board;
  const { routes, lengthS, endsAt, places, lander, legS, evaOfRoute, gapStart, gapFromS } = problem;
  let endsS = 0;
  for (let r = 0; r < routes; r += 1) {
    if (board.onRoute[r] === 0) continue;
    const i = nodeOf[prev[board.tail + r]!]!;
    // From the EVA's own first moment, so that what one route more costs does not hang on when touchdown was.
    endsS -= gapFromS[gapStart[evaOfRoute[r]!]!]!;
    endsS += earliest[i]! + lengthS[i]! + legS[r]![endsAt[i]! * places + lander]!;
  }
  value.mustOut = board.mustOut;
  value.worth = board.worth;
  value.endsS = endsS;
}

/** True when `a` is better than `b`. */
export function better(a: Value, b: Value): boolean {
  if (a.mustOut !== b.mustOut) return a.mustOut < b.mustOut;
  if (a.worth !== b.worth) return a.worth > b.worth;
  return a.endsS < b.endsS;
}
