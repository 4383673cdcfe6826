import type { Board } from "../board.ts";
import type { Limits } from "../../problem/problem.ts";
import type { Propagation } from "../propagate.ts";
import { backS, mayStay } from "./outing.ts";

/**
 * work-and-rest. Follows one route and, where a stretch of work and walking grows too long, asks for a rest on
 * arrival somewhere inside that stretch: as late as possible, sooner where the crew member would wait there anyway.
 */
export type RuleAnswer = "holds" | "changed" | "fails";

/** Earlier than any plan. */
const NONE = -2_000_000_000;

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
  const allBackS = backS(board, problem.evaOfRoute[r]!);
  const tail = board.tail + r;
  const airlockS = lengthS[nodeOf[board.head + r]!]!;
  if (allBackS + lengthS[nodeOf[tail]!]! - egressS <= limits.workS) return "holds";
  const legs = problem.legS[r]!;
  const stretch = new Stretch(limits);
  if (!stretch.works(egressS, egressS + airlockS)) return "fails";
  let atS = egressS + airlockS;
  let place = problem.lander;
  for (let s = next[board.head + r]!; ; s = next[s]!) {
    const node = nodeOf[s]!;
    const startS = s === tail ? allBackS : earliest[node]!;
    const arrivedS = atS + legs[place * places + beginsAt[node]!]!;
    if (!stretch.works(atS, arrivedS)) return giveRest(board, propagation, stretch);
    if (mayStay(board, s, startS - arrivedS)) stretch.offerRest(s, arrivedS, startS - arrivedS);
    stretch.pauses(startS - arrivedS);
    const doneS = startS + lengthS[node]!;
    if (s !== tail && restful[node] === 1) stretch.pauses(doneS - startS);
    else if (!stretch.works(startS, doneS)) return giveRest(board, propagation, stretch);
    if (s === tail) return "holds";
    atS = doneS;
    place = endsAt[node]!;
  }
}

/** A stretch of work as it grows along a route, and where in it a rest would best be taken. */
class Stretch {
  /** The slot before whose activity a rest is best; -1 where there is none. */
  slot = -1;
  /** When its crew member arrives there. */
  arrivedS = 0;
  private waitS = 0;
  /** When the stretch began; NONE while rested. */
  private beganS = NONE;
  /** Pauses one after the other, added up. */
  private pausedS = 0;
  private readonly workS: number;
  private readonly restS: number;

  constructor({ workS, restS }: Limits) {
    this.workS = workS;
    this.restS = restS;
  }

  /** Work or walking between two moments; false where the stretch grows too long by it. */
  works(fromS: number, untilS: number): boolean {
    if (untilS <= fromS) return true;
    this.pausedS = 0;
    if (this.beganS === NONE) {
      this.beganS = fromS;
      this.slot = -1;
    }
    return untilS - this.beganS <= this.workS;
  }

  pauses(seconds: number): void {
    if (seconds <= 0) return;
    this.pausedS += seconds;
    if (this.pausedS >= this.restS) this.beganS = NONE;
  }

  /** A rest could be taken before the activity in `slot`, where the crew member waits for `waitS` anyway. */
  offerRest(slot: number, arrivedS: number, waitS: number): void {
    if (this.beganS === NONE || arrivedS - this.beganS > this.workS) return;
    if (this.slot >= 0 && this.waitS - waitS > arrivedS - this.arrivedS) return;
    this.slot = slot;
    this.arrivedS = arrivedS;
    this.waitS = waitS;
  }
}

/** Takes the rest that suits a stretch best, on arrival at an activity. */
function giveRest(board: Board, propagation: Propagation | null, { slot, arrivedS }: Stretch): RuleAnswer {
  const restS = Math.max(1, board.problem.limits.restS);
  if (!propagation || slot < 0 || board.restS[slot]! >= restS) return "fails";
  propagation.rest(slot, restS);
  return propagation.raise(board.nodeOf[slot]!, arrivedS + restS) ? "changed" : "fails";
}
