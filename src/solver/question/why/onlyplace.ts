import type { Schedule } from "../../../plan/index.ts";
import { Day } from "../../network/day.ts";
import { loadSchedule, insertAll } from "../../network/placing.ts";
import { read } from "../../network/verify.ts";
import { keyOf } from "./cause.ts";
import { type RelaxedProblem, provable } from "./lifting.ts";
import { type Loop, loopOf } from "./loop.ts";
import { eachSpot, type CandidatePlace } from "./spots.ts";

/** The loop of times that closes the only place in the order of `schedule` where `wanted` could go; null when there are more, or none. */
export function loopInOnlyPlace(lifting: RelaxedProblem, schedule: Schedule, wanted: number): Loop | null {
  const day = new Day(provable(lifting.under(() => true)));
  if (loadSchedule(day, schedule) > 0) return null;
  const spots: CandidatePlace[] = [];
  const put = (spot: CandidatePlace): boolean => {
    spots.push({ ...spot, behind: [...spot.behind] });
    return spots.length > 1;
  };
  eachSpot(day, wanted, put, true);
  const [only] = spots;
  if (!only || spots.length > 1) return null;
  day.board.link(wanted, only.behind, only.eva);
  const loop = loopOf(day);
  const own = keyOf({ kind: "placement", about: wanted });
  return loop && { causes: loop.causes.filter((cause) => keyOf(cause) !== own) };
}

/** The loop of times that does not close in the order of `schedule` itself; null when all close, or its crew cannot be read. */
export function ownLoop(lifting: RelaxedProblem, schedule: Schedule): Loop | null {
  const problem = provable(lifting.under(() => true));
  const { stands, unread } = read(problem, schedule);
  const order = [...stands].sort((x, y) => x.startS - y.startS || x.activity - y.activity);
  const day = new Day(problem);
  return unread.length === 0 && insertAll(day, order) ? loopOf(day) : null;
}
