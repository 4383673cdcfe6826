import type { Problem } from "../../problem/problem.ts";
import type { PlacedActivity } from "../../network/verify.ts";
import { neededFor } from "../trial/needs.ts";
import { type Budget, Trial } from "../trial/trial.ts";
import type { Aim } from "./aim.ts";
import { less } from "./cost.ts";
import type { Start } from "./exchanges.ts";
import { nearer } from "./nearer.ts";

/** Places tried for what goes on a day that slides, and waits on purpose. */
const MOST_TRIES = 200;
const MOST_WAITS = 60;
const FEW_WAITS = 6;

/**
 * Everything in its order and no earlier than it is, or all but one task that goes wherever there is room, waiting on purpose where that
 * is what it takes; what the placed tasks need and is not there is put on as well.
 */
export function* slid(aim: Aim, { placings, missing }: Start): Generator<void, void> {
  const { verifier, wasS } = aim;
  // The slack test alone would leave on the board what it could not place.
  const { problem: whole } = verifier;
  const problem: Problem = whole.checkLevel === "slack" ? { ...whole, checkLevel: "network" } : whole;
  const standing = new Set(wasS.keys());
  const unmet = [...standing].flatMap((a) => problem.needs[a]!.filter((b) => !standing.has(b)));
  const added = [...new Set(unmet.flatMap((b) => neededFor(problem, b, standing)))];
  let nearest: readonly PlacedActivity[] | null = null;
  for (const off of [-1, ...placings.map((placing) => placing.activity)]) {
    const order = placings.filter((placing) => placing.activity !== off);
    const group = [...added, ...missing, ...(off < 0 ? [] : [off])];
    // With one task off there are as many days as tasks: waits are for the day as it is, and for what goes on.
    const budget = { tries: MOST_TRIES, waits: off < 0 ? MOST_WAITS : FEW_WAITS };
    const now = yield* slidWith(problem, order, group, budget);
    if (!now) continue;
    if ((!nearest || less(aim.cost(now), aim.cost(nearest))) && verifier.holds(now)) nearest = now;
    yield;
  }
  if (nearest) yield* nearer(aim, nearest);
}

/** `placings` in their order and no earlier than they are, and `group` wherever there is room; null where that does not come out. */
function* slidWith(
  problem: Problem,
  placings: readonly PlacedActivity[],
  group: readonly number[],
  budget: Budget,
): Generator<void, readonly PlacedActivity[] | null> {
  const order = placings.toSorted((x, y) => x.startS - y.startS || x.activity - y.activity);
  const trial = new Trial(problem);
  if (!trial.insert(order)) return null;
  const settled = trial.holdBack(order);
  yield;
  if (!settled && !(yield* trial.wait(budget))) return null;
  return (yield* trial.placeGroup(group, budget)) === true ? trial.placings : null;
}
