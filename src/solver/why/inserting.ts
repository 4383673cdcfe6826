import type { Day } from "../day.ts";
import { eachSpot, type Spot } from "./spots.ts";

/** Places tried between two breaths. */
const BREATH = 50;

/** How many places may be tried yet. */
export interface Budget {
  tries: number;
}

/**
 * Puts `group` on the day one after the other, what stands sliding in its order: every place of each where slack does not rule it
 * out, roomiest first. True with all of it placed, false with the day as it was; null, and the day spoilt, when the budget is
 * gone.
 */
export function* placeGroup(
  day: Day,
  group: readonly number[],
  budget: Budget,
): Generator<void, boolean | null> {
  const [activity, ...rest] = group;
  if (activity === undefined) return true;
  const spots: Spot[] = [];
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
  return false;
}
