import type { Board } from "../board.ts";
import { KINDS } from "../problem.ts";
import type { Propagation } from "../propagate.ts";
import { backS } from "./outing.ts";
import type { Answer } from "./rests.ts";

/**
 * walk-back-consumables. What is drawn until a moment is a sum over the route so far plus the rest rate times the time
 * since egress; so each moment bounds how long after egress it may be, and a later egress mends it.
 */
export function keepWayBack(
  board: Board,
  propagation: Propagation | null,
  r: number,
  egressS: number,
): Answer {
  const { problem, next, nodeOf, earliest } = board;
  const { lengthS, endsAt, beginsAt, places, draws, homeS, peakS } = problem;
  const e = problem.evaOfRoute[r]!;
  const m = problem.memberOfRoute[r]!;
  const egress = problem.activities + 2 * e;
  const legs = problem.legS[r]!;
  const legDraws = draws.leg[m]!;
  const tail = board.tail + r;
  let lateS = 0;
  for (let kind = 0; kind < KINDS; kind += 1) {
    const k = m * KINDS + kind;
    const rest = draws.restRate[k]!;
    const back = draws.walkbackRate[k]!;
    const full = draws.available[k]!;
    let drawn = 0;
    let fails = false;
    const test = (atS: number, home: number): void => {
      const left = full - drawn - back * home;
      if (left - rest * (atS - egressS) >= 0) return;
      if (rest === 0 || left < 0) fails = true;
      else lateS = Math.max(lateS, atS - egressS - Math.floor(left / rest));
    };
    test(egressS, 0);
    let atS = egressS + lengthS[egress]!;
    drawn += draws.hatchRate[k]! * lengthS[egress]!;
    test(atS, 0);
    let place = problem.lander;
    for (let s = next[board.head + r]!; ; s = next[s]!) {
      const node = nodeOf[s]!;
      const to = beginsAt[node]!;
      const cell = place * places + to;
      const arrivedS = atS + legs[cell]!;
      drawn += legDraws[cell * KINDS + kind]!;
      // The worst point of a way counts where it lies between the ends, against what is left at the end of the way.
      const peak = place === to ? 0 : peakS[cell]!;
      test(arrivedS, peak > homeS[place]! ? Math.max(peak, homeS[to]!) : homeS[to]!);
      const startS = s === tail ? backS(board, e) : earliest[node]!;
      test(startS, homeS[to]!);
      atS = startS + lengthS[node]!;
      if (s === tail) {
        drawn += draws.hatchRate[k]! * lengthS[node]!;
        test(atS, 0);
        break;
      }
      drawn += draws.task[(node * problem.members + m) * KINDS + kind]!;
      place = endsAt[node]!;
      test(atS, homeS[place]!);
    }
    if (fails) return "fails";
  }
  if (lateS === 0) return "holds";
  return propagation?.raise(egress, egressS + lateS) ? "changed" : "fails";
}
