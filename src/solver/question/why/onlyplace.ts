import type { Schedule } from "../../../plan/index.ts";
import { read } from "../../network/verify.ts";
import { keyOf } from "./cause.ts";
import { type RelaxedProblem, provable } from "./lifting.ts";
import { type Loop, loopOf } from "./loop.ts";
import { placesOf } from "../trial/places.ts";
import { Trial } from "../trial/trial.ts";

/** The loop of times that closes the only place in the order of `schedule` where `wanted` could go; null when there are more, or none. */
export function loopInOnlyPlace(lifting: RelaxedProblem, schedule: Schedule, wanted: number): Loop | null {
  const trial = Trial.of(provable(lifting.under(() => true)), schedule);
  if (!trial) return null;
  const [only, ...others] = placesOf(trial.day, wanted, 2, true);
  if (!only || others.length > 0) return null;
  trial.day.board.link(wanted, only.behind, only.eva);
  const loop = loopOf(trial.day);
  const own = keyOf({ kind: "placement", about: wanted });
  return loop && { causes: loop.causes.filter((cause) => keyOf(cause) !== own) };
}

/** The loop of times that does not close in the order of `schedule` itself; null when all close, or its crew cannot be read. */
export function ownLoop(lifting: RelaxedProblem, schedule: Schedule): Loop | null {
  const problem = provable(lifting.under(() => true));
  const { stands, unread } = read(problem, schedule);
  const order = [...stands].sort((x, y) => x.startS - y.startS || x.activity - y.activity);
  const trial = new Trial(problem);
  return unread.length === 0 && trial.insert(order) ? loopOf(trial.day) : null;
}
