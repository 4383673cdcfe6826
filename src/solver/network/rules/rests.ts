import type { Board } from "../board.ts";
import type { Propagation } from "../propagate.ts";
import { backS } from "./outing.ts";

/**
 * work-and-rest. Follows one route and, where a stretch of work and walking grows too long, asks for a rest on
 * arrival somewhere inside that stretch: as late as possible, sooner where the crew member would wait there anyway.
 */
export type RuleAnswer = "holds" | "changed" | "fails";

/**
 * Tests route `r` whose egress is at `egressS`; may lay a rest and raise what follows (`propagation` has begun), or only
 * tests without one.
 */
export function keepRests(
  board: Board,
  propagation: Propagation | null,
  r: number,
  egressS: number,
): RuleAnswer {
  const { problem, next, nodeOf, earliest } = board;
  const { lengthS, endsAt, beginsAt, places, restful, limits } = problem;
  const { workS, restS } = limits;
  const e = problem.evaOfRoute[r]!;
  const allBackS = backS(board, e);
  const tail = board.tail + r;
  const airlockS = lengthS[nodeOf[board.head + r]!]!;
  if (allBackS + lengthS[nodeOf[tail]!]! - egressS <= workS) return "holds";
  if (airlockS > workS) return "fails";
  const legs = problem.legS[r]!;
  // A stretch of work began at `beganS` (NONE while rested); pauses one after the other add up to `restedS`.
  let beganS = airlockS > 0 ? egressS : NONE;
  let restedS = 0;
  let best = -1;
  let bestAtS = 0;
  let bestWaitS = 0;
  let atS = egressS + airlockS;
  let place = problem.lander;
  for (let s = next[board.head + r]!; ; s = next[s]!) {
    const node = nodeOf[s]!;
    const startS = s === tail ? allBackS : earliest[node]!;
    const arrivedS = atS + legs[place * places + beginsAt[node]!]!;
    if (arrivedS > atS) {
      restedS = 0;
      if (beganS === NONE) {
        beganS = atS;
        best = -1;
      }
      if (arrivedS - beganS > workS) return layRest(board, propagation, best, bestAtS);
    }
    if (s !== tail && beganS !== NONE && arrivedS - beganS <= workS) {
      // All are back when the last one is, and egress follows from the first task that is due (S3): nobody can be asked
      // to wait before either.
      const waitS = startS - arrivedS;
      const due = waitS === 0 && board.prev[s]! >= board.head;
      if (!due && (best < 0 || bestWaitS - waitS <= arrivedS - bestAtS)) {
        best = s;
        bestAtS = arrivedS;
        bestWaitS = waitS;
      }
    }
    if (startS > arrivedS) {
      restedS += startS - arrivedS;
      if (restedS >= restS) beganS = NONE;
    }
    const doneS = startS + lengthS[node]!;
    if (doneS > startS) {
      if (s !== tail && restful[node] === 1) {
        restedS += doneS - startS;
        if (restedS >= restS) beganS = NONE;
      } else {
        restedS = 0;
        if (beganS === NONE) {
          beganS = startS;
          best = -1;
        }
        if (doneS - beganS > workS) return layRest(board, propagation, best, bestAtS);
      }
    }
    if (s === tail) return "holds";
    atS = doneS;
    place = endsAt[node]!;
  }
}

/** Takes a rest on arrival, at `arrivedS`, at the activity in `slot`. */
function layRest(board: Board, propagation: Propagation | null, slot: number, arrivedS: number): RuleAnswer {
  const restS = Math.max(1, board.problem.limits.restS);
  if (!propagation || slot < 0 || board.restS[slot]! >= restS) return "fails";
  propagation.rest(slot, restS);
  return propagation.raise(board.nodeOf[slot]!, arrivedS + restS) ? "changed" : "fails";
}

/** Earlier than any plan. */
const NONE = -2_000_000_000;
