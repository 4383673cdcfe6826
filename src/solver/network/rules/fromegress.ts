import type { Board } from "../board.ts";
import type { Propagation } from "../propagate.ts";
import type { RuleAnswer } from "./rests.ts";

/**
 * egress-window. Tests the activities on EVA `e`, whose egress is at `egressS`, that have a window counted from it; may begin one later
 * that begins too soon, or go out later where one ends too late (`propagation` has begun), or only tests without one. Nobody could do
 * with less: egress never comes sooner for starts that are later.
 */
export function keepFromEgress(
  board: Board,
  propagation: Propagation | null,
  e: number,
  egressS: number,
): RuleAnswer {
  const { problem, placed, evaOf, earliest } = board;
  const { pet, lengthS, activities } = problem;
  let answer: RuleAnswer = "holds";
  for (const a of pet?.bound ?? []) {
    if (placed[a] === 0 || evaOf[a] !== e) continue;
    const soonestS = egressS + pet!.fromS[a]!;
    const goesS = earliest[a]! + lengthS[a]! - pet!.toS[a]!;
    if (earliest[a]! >= soonestS && goesS <= egressS) continue;
    if (!propagation?.raise(a, soonestS) || !propagation.raise(activities + 2 * e, goesS)) return "fails";
    answer = "changed";
  }
  return answer;
}
