import { Board } from "../../network/board.ts";
import type { Day } from "../../network/day.ts";
import { Waiting, type Waits } from "../../network/waiting.ts";
import { eachSpot, type CandidatePlace } from "./spots.ts";

/** Places tried between two breaths. */
const BREATH = 50;
/** Orders with starts held back that one place may use up. */
const WAITS_A_PLACE = 24;

/** How many places, and how many orders with starts held back, may be tried yet. */
export interface Budget extends Waits {
  tries: number;
}

/**
 * Puts `group` on the day one after the other, what stands sliding in its order: every place of each where slack does not rule it
 * out, roomiest first; then the same places with starts held back on purpose, as far as the budget goes. True with all of it placed,
 * false with the day as it was; null, and the day spoilt, when the budget of places is gone.
 */
export function* placeGroup(
  day: Day,
  group: readonly number[],
  budget: Budget,
): Generator<void, boolean | null> {
  const [activity, ...rest] = group;
  if (activity === undefined) return true;
  const spots: CandidatePlace[] = [];
  eachSpot(day, activity, (spot) => {
    spots.push({ ...spot, behind: [...spot.behind] });
    return spots.length > budget.tries;
  });
  spots.sort((a, b) => b.roomS - a.roomS);
  for (const { behind, eva } of spots) {
    budget.tries -= 1;
    if (budget.tries < 0) return null;
    if (budget.tries % BREATH === 0) yield;
    if (!day.tryLink(activity, behind, eva)) continue;
    const all = yield* placeGroup(day, rest, budget);
    if (all !== false) return all;
    day.unlink(activity);
  }
  // Where times alone decide, earliest starts are never worse than later ones.
  if (day.problem.checkLevel !== "rules" || budget.waits <= 0) return false;
  const before = new Board(day.problem);
  before.copy(day.board);
  const waiting = new Waiting(day.problem);
  for (const { behind, eva } of spots) {
    if (budget.waits <= 0) break;
    yield;
    const here = { waits: Math.min(budget.waits, WAITS_A_PLACE) };
    budget.waits -= here.waits;
    day.board.link(activity, behind, eva);
    const holds = yield* waiting.settle(day, here);
    budget.waits += here.waits;
    const all = holds ? yield* placeGroup(day, rest, budget) : false;
    if (all !== false) return all;
    day.board.copy(before);
  }
  return false;
}
