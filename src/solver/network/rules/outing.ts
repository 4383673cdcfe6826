import type { Board } from "../board.ts";

/** Egress of `eva` as RULES.md derives it (S3): as late as lets everybody with tasks reach the first one. */
export function egressS(board: Board, eva: number): number {
  const { problem, next, nodeOf, earliest } = board;
  const { routeStart, endsAt, beginsAt, places, legS } = problem;
  const egress = problem.activities + 2 * eva;
  const row = endsAt[egress]! * places;
  let least = Infinity;
  for (let r = routeStart[eva]!; r < routeStart[eva + 1]!; r += 1) {
    if (board.onRoute[r] === 0) continue;
    const first = nodeOf[next[board.head + r]!]!;
    least = Math.min(least, earliest[first]! - legS[r]![row + beginsAt[first]!]!);
  }
  return least - problem.lengthS[egress]!;
}

/** When everybody is back at the lander, before the ingress work (S3). */
export function backS(board: Board, eva: number): number {
  return board.earliest[board.problem.activities + 2 * eva + 1]!;
}

/** From egress to ingress complete. */
export function outS(board: Board, eva: number): number {
  const { problem } = board;
  return backS(board, eva) + problem.lengthS[problem.activities + 2 * eva + 1]! - egressS(board, eva);
}

/**
 * True where somebody who waits for `waitS` on arrival at slot `s` can be asked to stay longer. All are back when the last one is, and egress
 * follows from the first task that is due (S3): nobody can be asked to wait before either.
 */
export function mayStay(board: Board, s: number, waitS: number): boolean {
  return s < board.head && (waitS !== 0 || board.prev[s]! < board.head);
}
