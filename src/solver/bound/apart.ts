import type { Board } from "../network/board.ts";
import type { Limits } from "../problem/problem.ts";

/**
 * True where in the order on `board` somebody is too far from another of their EVA whatever starts are chosen from the earliest to the latest
 * (crew-separation): when a task begins, or is done, each other member must be able to be near enough at some moment at which that may be.
 * `limits` are those of all rules, which the board's own problem may leave out.
 */
export function apartForSure(board: Board, limits: Limits): boolean {
  if (!Number.isFinite(limits.apartM)) return false;
  const { problem, placed, earliest, latest } = board;
  for (let a = 0; a < problem.activities; a += 1) {
    const e = board.evaOf[a]!;
    if (placed[a] === 0 || e < 0) continue;
    const lasts = problem.lengthS[a]!;
    for (let r = problem.routeStart[e]!; r < problem.routeStart[e + 1]!; r += 1) {
      if (takesPart(board, a, r)) continue;
      const begins = { place: problem.beginsAt[a]!, fromS: earliest[a]!, byS: latest[a]! };
      const ends = { place: problem.endsAt[a]!, fromS: earliest[a]! + lasts, byS: latest[a]! + lasts };
      if (!comesNear(board, limits, r, begins) || !comesNear(board, limits, r, ends)) return true;
    }
  }
  return false;
}

function takesPart({ problem, lane }: Board, a: number, r: number): boolean {
  const first = problem.slotStart[a]!;
  for (let s = first; s < first + problem.crewCount[a]!; s += 1) if (lane[s] === r) return true;
  return false;
}

/**
 * True when who is on route `r` may be near enough to `place` at some moment from `fromS` to `byS`: of a way of so many metres no point is
 * nearer than half of what the distances of its ends are more than those.
 */
function comesNear(
  board: Board,
  { straightM, apartM }: Limits,
  r: number,
  { place, fromS, byS }: { readonly place: number; readonly fromS: number; readonly byS: number },
): boolean {
  const { problem, next, nodeOf, earliest, latest } = board;
  const { places, legM, beginsAt, endsAt, innerM, activities, lander } = problem;
  const metres = (at: number): number => straightM[place * places + at]!;
  if (metres(lander) <= apartM) return true;
  if (board.onRoute[r] === 0) return false;
  for (let p = board.head + r; p !== board.tail + r; p = next[p]!) {
    const [node, follow] = [nodeOf[p]!, nodeOf[next[p]!]!];
    if (latest[follow]! < fromS) continue;
    if (node < activities && earliest[node]! > byS) return false;
    const [end, to] = [endsAt[node]!, beginsAt[follow]!];
    if ((metres(end) + metres(to) - legM[end * places + to]!) / 2 <= apartM) return true;
    if (node < activities && (metres(beginsAt[node]!) + metres(end) - innerM[node]!) / 2 <= apartM)
      return true;
  }
  return false;
}
