import type { Board } from "../board.ts";
import { KINDS } from "../../problem/problem.ts";
import { outS } from "./outing.ts";

/** Kinds of consumables that the lander's stores hold; absorbent is counted in changes. */
const STORED = [0, 2, 3] as const;

/** What adds up over an outing or the stay: eva-distance, stay-distance, duty, lander-stores. True when all hold. */
export function totalsHold(board: Board): boolean {
  const { problem } = board;
  const { limits, members, routes } = problem;
  if (limits.evaM !== Infinity)
    for (let r = 0; r < routes; r += 1) if (board.walkedM[r]! > limits.evaM) return false;
  if (!limits.storesBind && limits.dutyS === Infinity && limits.stayM === Infinity) return true;
  for (let m = 0; m < members; m += 1) if (!dutyHolds(board, m)) return false;
  return !limits.storesBind || storesHold(board);
}

/** stay-distance and duty of crew member `m`. */
function dutyHolds(board: Board, m: number): boolean {
  const { problem } = board;
  const { limits, routes } = problem;
  let walkedM = 0;
  let dutyS = 0;
  for (let r = 0; r < routes; r += 1) {
    if (problem.memberOfRoute[r] !== m || board.onEva[problem.evaOfRoute[r]!] === 0) continue;
    walkedM += board.walkedM[r]!;
    if (limits.dutyS !== Infinity) dutyS += outS(board, problem.evaOfRoute[r]!);
  }
  return walkedM <= limits.stayM && dutyS <= limits.dutyS;
}

/** What is too much over all EVAs together, and how much less it gets with each second that an EVA is shorter. */
export interface Excess {
  readonly amount: number;
  readonly perSecond: Float64Array;
}

/** The sums over EVAs that are too much, where shorter EVAs would do; null where they would not. */
export function excessesOf(board: Board): Excess[] | null {
  const { members, limits } = board.problem;
  const excesses: Excess[] = [];
  for (let m = 0; m < members; m += 1) if (!dutyExcess(board, m, excesses)) return null;
  if (limits.storesBind && !storeExcesses(board, excesses)) return null;
  return excesses;
}

/** Adds what crew member `m` is out for too long; false where they walk too far, which shorter EVAs do not change. */
function dutyExcess(board: Board, m: number, excesses: Excess[]): boolean {
  const { problem } = board;
  const { limits, routes } = problem;
  let walkedM = 0;
  let dutyS = 0;
  const perSecond = new Float64Array(problem.evas);
  for (let r = 0; r < routes; r += 1) {
    const e = problem.evaOfRoute[r]!;
    if (problem.memberOfRoute[r] !== m || board.onEva[e] === 0) continue;
    if (board.walkedM[r]! > limits.evaM) return false;
    walkedM += board.walkedM[r]!;
    dutyS += outS(board, e);
    perSecond[e] = 1;
  }
  if (dutyS > limits.dutyS) excesses.push({ amount: dutyS - limits.dutyS, perSecond });
  return walkedM <= limits.stayM;
}

/** Adds what is taken too much of from the lander's stores; false where absorbent is short, which shorter EVAs do not change. */
function storeExcesses(board: Board, excesses: Excess[]): boolean {
  const { problem } = board;
  const { limits } = problem;
  const need = new Float64Array(KINDS);
  const perSecond = Array.from({ length: KINDS }, () => new Float64Array(problem.evas));
  const changes = tellRecharges(board, (r, kind, seconds) => {
    const rate = restRateOf(board, r, kind);
    need[kind]! += drawnOn(board, r, kind) + rate * seconds;
    perSecond[kind]![problem.evaOfRoute[r]!]! += rate;
  });
  for (const kind of STORED) {
    const amount = need[kind]! - limits.stores[kind]!;
    if (amount > 0) excesses.push({ amount, perSecond: perSecond[kind]! });
  }
  return changes <= limits.changes;
}

function storesHold(board: Board): boolean {
  const { limits } = board.problem;
  const need = new Float64Array(KINDS);
  const changes = tellRecharges(board, (r, kind, seconds) => {
    need[kind]! += drawnOn(board, r, kind) + restRateOf(board, r, kind) * seconds;
  });
  return changes <= limits.changes && STORED.every((kind) => need[kind]! <= limits.stores[kind]!);
}

/** Tells of every outing that is recharged for, by kind, and gives how many there are: all but the last in each suit. */
function tellRecharges(board: Board, tell: (r: number, kind: number, seconds: number) => void): number {
  const { problem } = board;
  const { suits, routes } = problem;
  let changes = 0;
  for (let suit = 0; suit < suits; suit += 1) {
    const last = lastOuting(board, suit);
    for (let r = 0; r < routes; r += 1) {
      const e = problem.evaOfRoute[r]!;
      if (r === last || problem.suitOfRoute[r] !== suit || board.onEva[e] === 0) continue;
      changes += 1;
      const seconds = outS(board, e);
      for (const kind of STORED) tell(r, kind, seconds);
    }
  }
  return changes;
}

/** The route on which `suit` is out last; -1 where it never is. */
function lastOuting(board: Board, suit: number): number {
  const { problem } = board;
  let last = -1;
  let lastS = -Infinity;
  for (let r = 0; r < problem.routes; r += 1) {
    const e = problem.evaOfRoute[r]!;
    if (problem.suitOfRoute[r] !== suit || board.onEva[e] === 0) continue;
    const outS = board.earliest[problem.activities + 2 * e]!;
    if (outS < lastS) continue;
    last = r;
    lastS = outS;
  }
  return last;
}

function restRateOf(board: Board, r: number, kind: number): number {
  return board.problem.draws.restRate[r * KINDS + kind]!;
}

/** Draws over rest on route `r`, the purge among them; the board keeps them where budgets bind, else they are summed here. */
export function drawnOn(board: Board, r: number, kind: number): number {
  const { problem, next, nodeOf } = board;
  const { draws } = problem;
  const airlock = draws.purged[r * KINDS + kind]! + board.drawn[r * KINDS + kind]!;
  if (draws.binds) return airlock;
  let sum = airlock;
  for (let s = board.head + r; s !== board.tail + r; s = next[s]!) {
    const i = nodeOf[s]!;
    const j = nodeOf[next[s]!]!;
    const cell = problem.endsAt[i]! * problem.places + problem.beginsAt[j]!;
    sum += draws.leg[r]![cell * KINDS + kind]!;
    if (i < problem.activities) sum += draws.task[(i * problem.routes + r) * KINDS + kind]!;
  }
  return sum;
}
