import { storedAfterJ } from "../../../physics/index.ts";
import type { Board } from "../board.ts";
import type { Propagation } from "../propagate.ts";
import { backS } from "./outing.ts";
import type { RuleAnswer } from "./rests.ts";

/**
 * heat-storage. Follows one route and, where more heat would be stored than a body may hold, asks for a longer stand on
 * arrival somewhere before: at the last place where the crew member still holds heat that standing there lets go.
 */

/**
 * Tests route `r` whose egress is at `egressS`; may lay a stand and raise what follows (`propagation` has begun), or only
 * tests without one.
 */
export function keepCool(
  board: Board,
  propagation: Propagation | null,
  r: number,
  egressS: number,
): RuleAnswer {
  const { problem, next, nodeOf, earliest } = board;
  const { lengthS, endsAt, beginsAt, places, heat, routes } = problem;
  if (!heat) return "holds";
  const coolingW = heat.coolingW[r]!;
  const restW = heat.restW[r]!;
  const mostJ = heat.mostJ[r]!;
  const legs = problem.legS[r]!;
  const allBackS = backS(board, problem.evaOfRoute[r]!);
  const tail = board.tail + r;
  const airlockS = lengthS[nodeOf[board.head + r]!]!;
  let storedJ = storedAfterJ(0, heat.airlockW[r]!, coolingW, airlockS);
  if (storedJ > mostJ) return "fails";
  // The last stand on arrival after which heat was left, and how long it is now.
  let best = -1;
  let bestArrivedS = 0;
  let bestWaitS = 0;
  let bestLeftJ = 0;
  let atS = egressS + airlockS;
  let place = problem.lander;
  for (let s = next[board.head + r]!; ; s = next[s]!) {
    const node = nodeOf[s]!;
    const startS = s === tail ? allBackS : earliest[node]!;
    const cell = place * places + beginsAt[node]!;
    const arrivedS = atS + legs[cell]!;
    storedJ = storedAfterJ(storedJ, heat.legW[r]![cell]!, coolingW, arrivedS - atS);
    let overJ = storedJ - mostJ;
    if (overJ <= 0) {
      const waitS = startS - arrivedS;
      storedJ = storedAfterJ(storedJ, restW, coolingW, waitS);
      overJ = storedJ - mostJ;
      // Egress follows from the first task that is due (S3): nobody can be asked to stand before it.
      const due = waitS === 0 && board.prev[s]! >= board.head;
      if (storedJ <= 0) best = -1;
      else if (overJ <= 0 && s !== tail && !due) {
        best = s;
        bestArrivedS = arrivedS;
        bestWaitS = waitS;
        bestLeftJ = storedJ;
      }
    }
    if (overJ <= 0) {
      const watts = s === tail ? heat.airlockW[r]! : heat.taskW[node * routes + r]!;
      storedJ = storedAfterJ(storedJ, watts, coolingW, lengthS[node]!);
      overJ = storedJ - mostJ;
      if (storedJ <= 0) best = -1;
    }
    if (overJ > 0) {
      if (!propagation || best < 0 || restW >= coolingW) return "fails";
      const standS = bestWaitS + Math.ceil(Math.min(overJ, bestLeftJ) / (coolingW - restW));
      if (standS <= board.restS[best]!) return "fails";
      propagation.rest(best, standS);
      return propagation.raise(nodeOf[best]!, bestArrivedS + standS) ? "changed" : "fails";
    }
    if (s === tail) return "holds";
    atS = startS + lengthS[node]!;
    place = endsAt[node]!;
  }
}
