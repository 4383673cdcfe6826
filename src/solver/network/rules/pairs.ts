import type { Board } from "../board.ts";
import type { Pair } from "../../problem/problem.ts";

/** link-crew, link-eva and what excludes each other: what is asked of two tasks about who does them, on which EVA, and whether at all. */

/** True when `activity` on crew `choice` keeps it with all that is placed. */
export function pairsAllow(board: Board, activity: number, choice: number): boolean {
  const { placed, problem } = board;
  const at = problem.choiceAt[choice]!;
  for (const { other, relation } of problem.pairs[activity]!)
    if (placed[other] === 1 && !agree(board, relation, activity, problem.choiceRoutes, at, other))
      return false;
  return true;
}

/** True when two that are placed keep what `relation` says. */
export function pairHolds(board: Board, a: number, other: number, relation: Pair["relation"]): boolean {
  return agree(board, relation, a, board.lane, board.problem.slotStart[a]!, other);
}

/** True when all that is placed keeps it. */
export function pairsHold(board: Board): boolean {
  const { placed, problem } = board;
  return problem.pairs.every(
    (pairs, a) =>
      placed[a] === 0 ||
      pairs.every(
        ({ other, relation }) => other < a || placed[other] === 0 || pairHolds(board, a, other, relation),
      ),
  );
}

/** `a` by the crew whose routes stand in `routes` from number `at` on, with `other` as it is placed. */
function agree(
  board: Board,
  relation: Pair["relation"],
  a: number,
  routes: Int32Array,
  at: number,
  other: number,
): boolean {
  if (relation === "not both") return false;
  const { crewCount, evaOfRoute, memberOfRoute, slotStart } = board.problem;
  const crew = crewCount[a]!;
  if (relation === "same eva") return (crew === 0 ? -1 : evaOfRoute[routes[at]!]!) === board.evaOf[other];
  const first = slotStart[other]!;
  const end = first + crewCount[other]!;
  let common = 0;
  for (let k = at; k < at + crew; k += 1) {
    const member = memberOfRoute[routes[k]!]!;
    for (let s = first; s < end; s += 1) if (memberOfRoute[board.lane[s]!] === member) common += 1;
  }
  return relation === "same crew" ? common === end - first : common === 0;
}
