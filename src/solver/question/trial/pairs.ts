import type { Board } from "../../network/board.ts";
import type { Pair, Problem } from "../../problem/problem.ts";

/** Who does an activity, and on which EVA; undefined without crew. */
interface Crewing {
  readonly eva: number | undefined;
  readonly members: readonly number[];
}

/** True when `activity` on crew `choice` keeps link-crew, link-eva and exclusions with all that is placed. */
export function pairsAllow(board: Board, activity: number, choice: number): boolean {
  const { problem } = board;
  if (problem.pairs[activity]!.length === 0) return true;
  const own = crewingBy(problem, activity, choice);
  return problem.pairs[activity]!.every(
    ({ other, asks }) => board.placed[other] === 0 || agree(asks, own, crewingOn(board, other)),
  );
}

/** link-crew, link-eva and pairs that exclude each other, between what is placed. */
export function pairsHold(board: Board): boolean {
  const { problem, placed } = board;
  return problem.pairs.every(
    (pairs, a) =>
      placed[a] === 0 ||
      pairs.every(
        ({ other, asks }) =>
          other < a || placed[other] === 0 || agree(asks, crewingOn(board, a), crewingOn(board, other)),
      ),
  );
}

function agree(asks: Pair["asks"], own: Crewing, theirs: Crewing): boolean {
  if (asks === "not both") return false;
  if (asks === "same eva") return own.eva === theirs.eva;
  const common = own.members.filter((member) => theirs.members.includes(member)).length;
  return asks === "same crew" ? common === theirs.members.length : common === 0;
}

/** As crew `choice` names them. */
function crewingBy(problem: Problem, activity: number, choice: number): Crewing {
  const at = problem.choiceAt[choice]!;
  const routes = problem.choiceRoutes.subarray(at, at + problem.crewCount[activity]!);
  return crewingOf(problem, routes);
}

/** As `activity` is placed. */
function crewingOn(board: Board, activity: number): Crewing {
  const { problem, lane } = board;
  const first = problem.slotStart[activity]!;
  return crewingOf(problem, lane.subarray(first, first + problem.crewCount[activity]!));
}

function crewingOf(problem: Problem, routes: Int32Array): Crewing {
  return {
    eva: routes.length === 0 ? undefined : problem.evaOfRoute[routes[0]!],
    members: Array.from(routes, (r) => problem.memberOfRoute[r]!),
  };
}
