import type { Board } from "../../network/board.ts";
import type { Day } from "../../network/day.ts";
import type { Problem } from "../../problem/problem.ts";

/** A place in the order: a crew choice, and the slot that each of the activity's slots goes behind. */
export interface CandidatePlace {
  readonly choice: number;
  readonly eva: number;
  readonly behind: readonly number[];
  /** Room for the start by slack, s; negative: as much is missing. */
  readonly roomS: number;
}

/**
 * Hands every place in the order where slack does not rule `activity` out to `visit`, until it gives true; true when it did. With
 * `all`, hands over also those that slack rules out.
 */
export function eachSpot(
  day: Day,
  activity: number,
  visit: (spot: CandidatePlace) => boolean,
  all = false,
): boolean {
  const { problem, board } = day;
  const { slotStart, openStart, lengthS, endsAt, beginsAt, places } = problem;
  const first = openStart[activity]!;
  const last = openStart[activity + 1]! - 1;
  if (last < first || (!all && board.isOver(activity))) return false;
  const crew = problem.crewCount[activity]!;
  const slots = slotStart[activity + 1]! - slotStart[activity]!;
  const behind: number[] = [];
  let choice = 0;

  const across = (level: number, fromS: number, toS: number): boolean => {
    if (level === slots) {
      const eva = crew === 0 ? -1 : problem.evaOfRoute[problem.choiceRoutes[problem.choiceAt[choice]!]!]!;
      // The list is the walk's own and changes under it.
      return visit({ choice, eva, behind, roomS: toS - fromS });
    }
    for (const lane of lanesAt(problem, activity, choice, level)) {
      const unit = level >= crew;
      if (unit && taken(board, behind, crew, level, lane)) continue;
      const legs = unit ? null : problem.legS[lane]!;
      for (let p = board.head + lane; p !== board.tail + lane; p = board.next[p]!) {
        const i = board.nodeOf[p]!;
        const j = board.nodeOf[board.next[p]!]!;
        const into = legs ? legs[endsAt[i]! * places + beginsAt[activity]!]! : 0;
        const out = legs ? legs[endsAt[activity]! * places + beginsAt[j]!]! : 0;
        const free = unit && p === board.head + lane;
        const nextS = free ? fromS : Math.max(fromS, board.earliest[i]! + lengthS[i]! + into);
        const open = unit && board.next[p] === board.tail + lane;
        const byS = open ? toS : Math.min(toS, board.latest[j]! - lengthS[activity]! - out);
        if (!all && nextS > byS) continue;
        behind[level] = p;
        if (across(level + 1, nextS, byS)) return true;
      }
    }
    return false;
  };

  for (let c = problem.choiceStart[activity]!; c < problem.choiceStart[activity + 1]!; c += 1) {
    choice = c;
    if (!pairsAllow(day, activity, c)) continue;
    if (across(0, problem.openFromS[first]!, problem.openToS[last]!)) return true;
  }
  return false;
}

/** Routes or chains that the slot at `level` may stand in. */
function lanesAt(problem: Problem, activity: number, choice: number, level: number): number[] {
  const crew = problem.crewCount[activity]!;
  if (level < crew) return [problem.choiceRoutes[problem.choiceAt[choice]! + level]!];
  const q = problem.slotEquipment[problem.slotStart[activity]! + level]!;
  const first = problem.chainStart[q]!;
  return Array.from({ length: problem.chainStart[q + 1]! - first }, (_, k) => problem.routes + first + k);
}

function taken(board: Board, behind: readonly number[], from: number, to: number, lane: number): boolean {
  for (let k = from; k < to; k += 1) if (board.lane[behind[k]!] === lane) return true;
  return false;
}

/** link-crew, link-eva and pairs that exclude each other, against what is placed. */
function pairsAllow(day: Day, activity: number, choice: number): boolean {
  const { problem, board } = day;
  const at = problem.choiceAt[choice]!;
  const own = Array.from({ length: problem.crewCount[activity]! }, (_, k) => problem.choiceRoutes[at + k]!);
  return problem.pairs[activity]!.every(({ other, asks }) => {
    if (board.placed[other] === 0) return true;
    if (asks === "not both") return false;
    const theirs = Array.from(
      { length: problem.crewCount[other]! },
      (_, k) => board.lane[problem.slotStart[other]! + k]!,
    );
    if (asks === "same eva") return board.evaOf[other] === problem.evaOfRoute[own[0]!];
    const members = theirs.map((r) => problem.memberOfRoute[r]);
    const common = own.filter((r) => members.includes(problem.memberOfRoute[r])).length;
    return asks === "same crew" ? common === theirs.length : common === 0;
  });
}
