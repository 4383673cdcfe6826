import type { Board } from "../board.ts";
import type { Propagation } from "../propagate.ts";
import { backS } from "./outing.ts";

/**
 * work-and-rest. Follows one route and, where a stretch of work and walking grows too long, asks for a rest on
 * arrival somewhere inside that stretch: as late as possible, sooner where the crew member would wait there anyway.
 */
export type Answer = "holds" | "changed" | "fails";

/**
 * Tests route `r` whose egress is at `egressS`; may lay a rest and raise what follows (`propagation` has begun), or only
 * tests without one.
 */
export function keepRests(board: Board, propagation: Propagation | null, r: number, egressS: number): Answer {
  const { problem, next, nodeOf, earliest } = board;
  const { lengthS, endsAt, beginsAt, places, restful, limits } = problem;
  const e = problem.evaOfRoute[r]!;
  const legs = problem.legS[r]!;
  const tail = board.tail + r;
  const restS = Math.max(1, limits.restS);
  let beganS = Number.NaN;
  let restedS = 0;
  let bestSlot = -1;
  let bestAtS = 0;
  let bestWaitS = 0;

  /** A stretch of work; false when the limit is passed in it. */
  const work = (fromS: number, toS: number): boolean => {
    if (toS <= fromS) return true;
    restedS = 0;
    if (Number.isNaN(beganS)) {
      beganS = fromS;
      bestSlot = -1;
    }
    return toS - beganS <= limits.workS;
  };
  const pause = (fromS: number, toS: number): void => {
    if (toS <= fromS) return;
    restedS += toS - fromS;
    if (restedS >= limits.restS) beganS = Number.NaN;
  };
  /** Takes a rest where it fits best in the stretch so far. */
  const lay = (): Answer => {
    if (!propagation || bestSlot < 0 || board.restS[bestSlot]! >= restS) return "fails";
    board.restS[bestSlot] = restS;
    const before = board.prev[bestSlot]!;
    const atS = earliest[nodeOf[before]!]! + board.gapS(before, bestSlot);
    return propagation.raise(nodeOf[bestSlot]!, atS) ? "changed" : "fails";
  };
  const arrive = (slot: number, atS: number, waitS: number): void => {
    if (Number.isNaN(beganS) || atS - beganS > limits.workS) return;
    const dearer = restS - waitS > restS - bestWaitS + (atS - bestAtS);
    if (bestSlot >= 0 && dearer) return;
    bestSlot = slot;
    bestAtS = atS;
    bestWaitS = waitS;
  };

  const hatchS = lengthS[problem.activities + 2 * e]!;
  if (!work(egressS, egressS + hatchS)) return "fails";
  let atS = egressS + hatchS;
  let place = problem.lander;
  for (let s = next[board.head + r]!; ; s = next[s]!) {
    const node = nodeOf[s]!;
    const startS = s === tail ? backS(board, e) : earliest[node]!;
    const arrivedS = atS + legs[place * places + beginsAt[node]!]!;
    if (!work(atS, arrivedS)) return lay();
    // All are back when the last one is (S3): nobody can be asked to wait at the lander.
    if (s !== tail) arrive(s, arrivedS, startS - arrivedS);
    pause(arrivedS, startS);
    const doneS = startS + lengthS[node]!;
    if (s !== tail && restful[node] === 1) pause(startS, doneS);
    else if (!work(startS, doneS)) return lay();
    if (s === tail) return "holds";
    atS = doneS;
    place = endsAt[node]!;
  }
}
