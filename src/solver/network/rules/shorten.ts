import type { Board } from "../board.ts";
import type { Propagation } from "../propagate.ts";
import { egressS, outS } from "./outing.ts";
import type { RuleAnswer } from "./rests.ts";
import { type Excess, excessesOf } from "./totals.ts";

/**
 * duty and lander-stores, where the EVAs take too long together: an EVA gets shorter by going out later, as long as somebody waits on it
 * (S3: egress follows from the first task). First as much later as brings nobody back later, on the EVA where most is to be had; then, on the
 * last EVA with waiting on it, to the next stretch of a task's windows, which may begin nearer to what comes after.
 *
 * `propagation` has begun. Delays are never taken back: where the step to a later stretch was on the wrong EVA, an order is refused that
 * another step might have saved.
 */
export function shorten(board: Board, propagation: Propagation): RuleAnswer {
  const excesses = excessesOf(board);
  // Latest starts are worked out anew once the day holds; until then the room is free.
  if (!excesses || !propagation.latestOfAll(true)) return "fails";
  const { problem } = board;
  let best = -1;
  let byS = 0;
  for (let e = 0; e < problem.evas; e += 1) {
    if (board.onEva[e] === 0) continue;
    const freeS = board.latest[problem.activities + 2 * e]! - egressS(board, e);
    const hereS = Math.min(freeS, neededS(excesses, e));
    if (hereS <= byS) continue;
    best = e;
    byS = hereS;
  }
  if (best < 0) [best, byS] = nextStretch(board, excesses);
  if (best < 0) return "fails";
  propagation.begin();
  return propagation.raise(problem.activities + 2 * best, egressS(board, best) + byS) ? "changed" : "fails";
}

/** Seconds by which EVA `e` alone would have to be shorter for all that it counts in; 0 where it counts in nothing. */
function neededS(excesses: readonly Excess[], e: number): number {
  let mostS = 0;
  for (const { amount, perSecond } of excesses)
    if (perSecond[e]! > 0) mostS = Math.max(mostS, Math.ceil(amount / perSecond[e]!));
  return mostS;
}

/** The last EVA with waiting on it that counts, and how much later its egress must be for a task to leave a stretch of its windows. */
function nextStretch(board: Board, excesses: readonly Excess[]): [number, number] {
  const { problem } = board;
  for (let e = problem.evas - 1; e >= 0; e -= 1) {
    if (board.onEva[e] === 0 || neededS(excesses, e) === 0 || !waits(board, e)) continue;
    let byS = Infinity;
    for (let a = 0; a < problem.activities; a += 1) {
      if (board.placed[a] === 1 && board.evaOf[a] === e) byS = Math.min(byS, untilNextStretchS(board, a));
    }
    if (byS < Infinity) return [e, byS];
  }
  return [-1, 0];
}

/** How much later activity `a` must start to leave the stretch of its windows that it starts in; Infinity in the last one. */
function untilNextStretchS({ problem, earliest }: Board, a: number): number {
  const { openStart, openToS } = problem;
  const last = openStart[a + 1]! - 1;
  for (let k = openStart[a]!; k < last; k += 1)
    if (earliest[a]! <= openToS[k]!) return openToS[k]! - earliest[a]! + 1;
  return Infinity;
}

/** True when on EVA `e` whoever has most to do is out for longer than that takes. */
function waits(board: Board, e: number): boolean {
  const { problem } = board;
  const airlockS = problem.lengthS[problem.activities + 2 * e + 1]!;
  let mostS = 0;
  for (let r = problem.routeStart[e]!; r < problem.routeStart[e + 1]!; r += 1) {
    let busyS = airlockS;
    for (let s = board.head + r; s !== board.tail + r; s = board.next[s]!)
      busyS += board.gapS(s, board.next[s]!);
    mostS = Math.max(mostS, busyS);
  }
  return outS(board, e) > mostS;
}
