import type { Problem } from "../problem/problem.ts";
import type { PlacedActivity } from "../network/verify.ts";

/** Who and which unit does what: a schedule's placements in the order of their starts, each on its lanes. */
export interface Cast {
  readonly order: readonly PlacedActivity[];
  /** By slot: route, or routes + chain; -1 where the activity is not placed. */
  readonly laneOf: Int32Array;
}

/** Places in order; units go to the one free soonest, as the starts have it. */
export function castOf(problem: Problem, placings: readonly PlacedActivity[]): Cast {
  const { lengthS, slotStart, crewCount, choiceAt, choiceRoutes, routes } = problem;
  const order = [...placings].sort(
    (x, y) => x.startS - y.startS || lengthS[x.activity]! - lengthS[y.activity]! || x.activity - y.activity,
  );
  const laneOf = new Int32Array(problem.slots).fill(-1);
  const freeS = new Float64Array(problem.chains).fill(-Infinity);
  for (const { activity: a, choice, startS } of order) {
    const crew = crewCount[a]!;
    const first = slotStart[a]!;
    for (let k = 0; k < crew; k += 1) laneOf[first + k] = choiceRoutes[choiceAt[choice]! + k]!;
    for (let s = first + crew; s < slotStart[a + 1]!; s += 1) {
      const taken = laneOf.subarray(first + crew, s);
      const unit = freeSoonest(problem, problem.slotEquipment[s]!, freeS, taken);
      if (unit < 0) continue;
      laneOf[s] = routes + unit;
      freeS[unit] = startS + lengthS[a]!;
    }
  }
  return { order, laneOf };
}

/** The unit of `equipment` that is free soonest and whose lane is not among `taken`; -1 where there is none. */
function freeSoonest(problem: Problem, equipment: number, freeS: Float64Array, taken: Int32Array): number {
  let best = -1;
  for (let c = problem.chainStart[equipment]!; c < problem.chainStart[equipment + 1]!; c += 1) {
    if (taken.includes(problem.routes + c)) continue;
    if (best < 0 || freeS[c]! < freeS[best]!) best = c;
  }
  return best;
}
