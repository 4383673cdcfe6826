import { gridFrom } from "../../kernel/index.ts";
import type { Day } from "../network/day.ts";

/**
 * Where a task without room comes closest to fitting: over all places on all routes the one that is short of the least time,
 * in words. For a task of several crew members the route that is shortest of time in the best choice counts. How much is missing is not
 * said: what one place is short of, in one order, is not what it takes.
 */
export function nearMissWords(day: Day, activity: number): string {
  const { problem } = day;
  const best = leastShort(day, activity);
  if (problem.crewCount[activity] === 0)
    return "Its windows, its links to what is placed and equipment in use leave it no start.";
  if (best.choice < 0 || best.shortS === Infinity || best.shortS === 0)
    return "There is room on an EVA, but its links to what is placed, equipment in use or distance limits leave it no start there.";
  const r = problem.choiceRoutes[problem.choiceAt[best.choice]!]!;
  const eva = problem.plan.evas[problem.evaOfRoute[r]!]!.name;
  return best.late
    ? `It comes closest on ${eva}: in this order its window closes before anybody can be there.`
    : `It comes closest on ${eva}: in this order there is too little time beside what is on it.`;
}

/** How much time a place is short of, and whether that is because a window closes. */
interface Shortage {
  readonly shortS: number;
  readonly choice: number;
  readonly late: boolean;
}

/** The choice that is short of the least time. */
function leastShort(day: Day, activity: number): Shortage {
  const { problem } = day;
  let best: Shortage = { shortS: Infinity, choice: -1, late: false };
  for (let c = problem.choiceStart[activity]!; c < problem.choiceStart[activity + 1]!; c += 1) {
    let worst: Shortage = { shortS: 0, choice: c, late: false };
    for (let k = 0; k < problem.crewCount[activity]!; k += 1) {
      const least = shortOnRoute(day, activity, c, problem.choiceRoutes[problem.choiceAt[c]! + k]!);
      if (least.shortS > worst.shortS) worst = least;
    }
    if (worst.shortS < best.shortS) best = worst;
  }
  return best;
}

/** The place on one route that is short of the least time. */
function shortOnRoute({ problem, board }: Day, activity: number, choice: number, r: number): Shortage {
  const { lengthS, beginsAt, endsAt, places } = problem;
  const end = problem.openStart[activity + 1]!;
  const opensS = problem.openFromS[problem.openStart[activity]!]!;
  const closesS = problem.openToS[end - 1]!;
  const legs = problem.legS[r]!;
  let least: Shortage = { shortS: Infinity, choice, late: false };
  for (let p = board.head + r; p !== board.tail + r; p = board.next[p]!) {
    const i = board.nodeOf[p]!;
    const j = board.nodeOf[board.next[p]!]!;
    const intoS = legs[endsAt[i]! * places + beginsAt[activity]!]!;
    const outS = legs[endsAt[activity]! * places + beginsAt[j]!]!;
    if (intoS > NO_WAY_S || outS > NO_WAY_S) continue;
    const thereS = board.earliest[i]! + lengthS[i]! + intoS;
    const startS = thereS > opensS ? gridFrom(thereS, problem.gridS) : opensS;
    const overS = startS + lengthS[activity]! + outS - board.latest[j]!;
    const lateS = startS - closesS;
    const shortS = Math.max(overS, lateS, 0);
    if (shortS < least.shortS) least = { shortS, choice, late: lateS >= overS };
  }
  return least;
}

/** No plan is half as long. */
const NO_WAY_S = 700_000_000;
