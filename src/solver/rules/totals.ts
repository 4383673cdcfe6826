import type { Board } from "../board.ts";
import { KINDS } from "../problem.ts";
import { outS } from "./outing.ts";

/** What adds up over an outing or the stay: eva-distance, stay-distance, duty, lander-stores. True when all hold. */
export function totalsHold(board: Board): boolean {
  const { problem } = board;
  const { limits, members, routes } = problem;
  if (limits.evaM !== Infinity)
    for (let r = 0; r < routes; r += 1) if (board.walkedM[r]! > limits.evaM) return false;
  if (!limits.storesBind && limits.dutyS === Infinity && limits.stayM === Infinity) return true;
  for (let m = 0; m < members; m += 1) {
    let walkedM = 0;
    let dutyS = 0;
    for (let r = 0; r < routes; r += 1) {
      if (problem.memberOfRoute[r] !== m || board.onEva[problem.evaOfRoute[r]!] === 0) continue;
      walkedM += board.walkedM[r]!;
      if (limits.dutyS !== Infinity) dutyS += outS(board, problem.evaOfRoute[r]!);
    }
    if (walkedM > limits.stayM || dutyS > limits.dutyS) return false;
  }
  return !limits.storesBind || storesHold(board);
}

function storesHold(board: Board): boolean {
  const { problem } = board;
  const { limits, members, routes, draws } = problem;
  const need = new Float64Array(KINDS);
  let changes = 0;
  for (let m = 0; m < members; m += 1) {
    let last = -1;
    let lastS = -Infinity;
    for (let r = 0; r < routes; r += 1) {
      const e = problem.evaOfRoute[r]!;
      if (problem.memberOfRoute[r] !== m || board.onEva[e] === 0) continue;
      const egressS = board.earliest[problem.activities + 2 * e]!;
      if (egressS >= lastS) {
        last = r;
        lastS = egressS;
      }
    }
    for (let r = 0; r < routes; r += 1) {
      const e = problem.evaOfRoute[r]!;
      if (r === last || problem.memberOfRoute[r] !== m || board.onEva[e] === 0) continue;
      changes += 1;
      const seconds = outS(board, e);
      for (let kind = 0; kind < KINDS; kind += 1)
        need[kind]! += drawnOn(board, r, kind) + draws.restRate[m * KINDS + kind]! * seconds;
    }
  }
  return (
    changes <= limits.changes &&
    need[0]! <= limits.stores[0]! &&
    need[2]! <= limits.stores[2]! &&
    need[3]! <= limits.stores[3]!
  );
}

/** Draws over rest on route `r`; the board keeps them where budgets bind, else they are summed here. */
function drawnOn(board: Board, r: number, kind: number): number {
  const { problem, next, nodeOf } = board;
  const { draws } = problem;
  if (draws.binds) return board.drawn[r * KINDS + kind]!;
  const m = problem.memberOfRoute[r]!;
  let sum = board.drawn[r * KINDS + kind]!;
  for (let s = board.head + r; s !== board.tail + r; s = next[s]!) {
    const i = nodeOf[s]!;
    const j = nodeOf[next[s]!]!;
    const cell = problem.endsAt[i]! * problem.places + problem.beginsAt[j]!;
    sum += draws.leg[m]![cell * KINDS + kind]!;
    if (i < problem.activities) sum += draws.task[(i * problem.members + m) * KINDS + kind]!;
  }
  return sum;
}
