import type { Board } from "../network/board.ts";
import { backS, outS } from "../network/rules/outing.ts";
import { drawnOn } from "../network/rules/totals.ts";
import { KINDS, type Problem } from "../problem/problem.ts";

/** What decides between days of as much must-do work and worth: RULES.md's score from its fourth place on. */
export interface Finish {
  /** Least spare above a reserve at ingress, in 1/10000 of the stock. */
  worstMargin: number;
  /** Activities that stand otherwise than in the plan's own schedule. */
  changes: number;
  walkM: number;
  finishS: number;
}

/** Share of the stock that counts as all of it. */
const WHOLE = 10_000;

/** By activity how the plan's own schedule has it: start, EVA and crew; -1 for the EVA of what it does not place. */
export interface Own {
  readonly placed: Uint8Array;
  readonly startS: Int32Array;
  readonly eva: Int32Array;
  /** Crew members, sorted. */
  readonly crew: readonly (readonly number[])[];
}

export function ownOf(problem: Problem): Own {
  const { plan, activities } = problem;
  const index = new Map(plan.tasks.map(({ id }, a) => [id, a]));
  const evas = new Map<string | null, number>(plan.evas.map(({ id }, e) => [id, e]));
  const members = new Map(plan.crew.map(({ id }, m) => [id, m]));
  const placed = new Uint8Array(activities);
  const startS = new Int32Array(activities);
  const eva = new Int32Array(activities).fill(-1);
  const crew: number[][] = Array.from({ length: activities }, () => []);
  for (const placement of plan.schedule.placements) {
    const a = index.get(placement.task);
    if (a === undefined) continue;
    placed[a] = 1;
    startS[a] = placement.startS;
    eva[a] = evas.get(placement.eva) ?? -1;
    crew[a] = placement.crew.map((id) => members.get(id) ?? -1).sort((x, y) => x - y);
  }
  return { placed, startS, eva, crew };
}

/** Reads what decides of a board whose times are worked out into `finish`. */
export function readFinish(board: Board, own: Own, finish: Finish): void {
  const { problem } = board;
  let changes = 0;
  let finishS = 0;
  for (let a = 0; a < problem.activities; a += 1) {
    if (board.placed[a] === 1) finishS = Math.max(finishS, board.earliest[a]! + problem.lengthS[a]!);
    if (board.placed[a] !== own.placed[a] || (board.placed[a] === 1 && !standsAsOwn(board, own, a)))
      changes += 1;
  }
  for (let e = 0; e < problem.evas; e += 1)
    if (board.onEva[e]! > 0)
      finishS = Math.max(finishS, backS(board, e) + problem.lengthS[problem.activities + 2 * e + 1]!);
  finish.worstMargin = worstMargin(board);
  finish.changes = changes;
  finish.walkM = board.walkM;
  finish.finishS = finishS;
}

/** True where activity `a`, which is placed, starts as the plan's own schedule has it, on its EVA and by its crew. */
function standsAsOwn(board: Board, own: Own, a: number): boolean {
  return board.earliest[a] === own.startS[a] && isByOwnCrew(board, own, a);
}

/** True where activity `a` is placed on the EVA and by the crew of the plan's own schedule. */
export function isByOwnCrew(board: Board, own: Own, a: number): boolean {
  const { problem } = board;
  if (own.placed[a] === 0 || board.placed[a] === 0 || board.evaOf[a] !== own.eva[a]) return false;
  const crew = own.crew[a]!;
  if (crew.length !== problem.crewCount[a]) return false;
  for (let k = 0; k < crew.length; k += 1)
    if (!crew.includes(problem.memberOfRoute[board.lane[problem.slotStart[a]! + k]!]!)) return false;
  return true;
}

/** Who has nothing to do on an EVA goes out with the others all the same. */
function worstMargin(board: Board): number {
  const { routes, evaOfRoute } = board.problem;
  let least = WHOLE;
  for (let r = 0; r < routes; r += 1)
    if (board.onEva[evaOfRoute[r]!]! > 0) least = Math.min(least, marginOf(board, r));
  return least;
}

/** Least spare of the outing of route `r`, in 1/10000 of the stock, rounded down. */
export function marginOf(board: Board, r: number): number {
  const { draws, evaOfRoute } = board.problem;
  const seconds = outS(board, evaOfRoute[r]!);
  let least = WHOLE;
  for (let at = r * KINDS; at < (r + 1) * KINDS; at += 1) {
    const stock = draws.full[at]!;
    const spare =
      stock - draws.reserve[at]! - drawnOn(board, r, at - r * KINDS) - draws.restRate[at]! * seconds;
    const share = stock === 0 ? (spare < 0 ? -WHOLE : 0) : Math.floor((spare * WHOLE) / stock);
    least = Math.min(least, share);
  }
  return least;
}

/** Below 0 where `a` is better than `b`, above 0 where it is worse. */
export function compareFinishes(a: Finish, b: Finish): number {
  return b.worstMargin - a.worstMargin || a.changes - b.changes || a.walkM - b.walkM || a.finishS - b.finishS;
}
