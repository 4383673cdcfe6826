import type { Schedule } from "../../../plan/index.ts";
import { read } from "../../network/verify.ts";
import { keyOf } from "./cause.ts";
import { type RelaxedProblem, provable } from "./relaxedproblem.ts";
import { type Cycle, cycleOf } from "./cycle.ts";
import { placesOf } from "../trial/places.ts";
import { Trial } from "../trial/trial.ts";

/** The cycle of times that closes the only place in the order of `schedule` where `wanted` could go; null when there are more, or none. */
export function cycleInOnlyPlace(relaxed: RelaxedProblem, schedule: Schedule, wanted: number): Cycle | null {
  const trial = Trial.of(provable(relaxed.under(() => true)), schedule);
  if (!trial) return null;
  const [only, ...others] = placesOf(trial.day, wanted, 2, true);
  if (!only || others.length > 0) return null;
  trial.day.board.link(wanted, only.behind, only.eva);
  const cycle = cycleOf(trial.day);
  const own = keyOf({ kind: "placement", about: wanted });
  return cycle && { causes: cycle.causes.filter((cause) => keyOf(cause) !== own) };
}

/** The cycle of times that does not close in the order of `schedule` itself; null when all close, or its crew cannot be read. */
export function ownCycle(relaxed: RelaxedProblem, schedule: Schedule): Cycle | null {
  const problem = provable(relaxed.under(() => true));
  const { placings, unread } = read(problem, schedule);
  const order = [...placings].sort((x, y) => x.startS - y.startS || x.activity - y.activity);
  const trial = new Trial(problem);
  return unread.length === 0 && trial.insert(order) ? cycleOf(trial.day) : null;
}
