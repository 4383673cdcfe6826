import type { Schedule } from "../../plan/index.ts";
import { Day } from "../day.ts";
import { lay, linkAll } from "../placing.ts";
import { read } from "../verify.ts";
import { keyOf } from "./cause.ts";
import { type Lifting, provable } from "./lifting.ts";
import { type Loop, loopOf } from "./loop.ts";
import { eachSpot, type Spot } from "./spots.ts";

/** Where a task comes closest to a place in time on one EVA: what is missing there, and the loop it is missing in. */
export interface Nearest extends Loop {
  /** The EVA; -1 for a task without crew. */
  readonly eva: number;
}

/** Places whose loops are looked at, the roomiest of each EVA. */
const LOOKED_AT = 12;
/** Places gathered. */
const MOST_SPOTS = 4000;

/**
 * By EVA the place in the order of `schedule` where `wanted` comes closest in time, nearest first. Times only: an EVA with a place
 * that only other rules bar, or that nobody may do it on, is not among them. `places` counts all places.
 */
export function* nearestIn(
  lifting: Lifting,
  schedule: Schedule,
  wanted: number,
): Generator<void, { nearest: Nearest[]; places: number }> {
  const day = new Day(provable(lifting.under(() => true)));
  if (lay(day, schedule) > 0) return { nearest: [], places: 0 };
  yield;
  const byEva = new Map<number, Spot[]>();
  let places = 0;
  const put = (spot: Spot): boolean => {
    const list = byEva.get(spot.eva) ?? [];
    list.push({ ...spot, behind: [...spot.behind] });
    byEva.set(spot.eva, list);
    places += 1;
    return places === MOST_SPOTS;
  };
  eachSpot(day, wanted, put, true);
  yield;
  const own = keyOf({ kind: "placement", about: wanted });
  const nearest: Nearest[] = [];
  for (const [eva, spots] of byEva) {
    spots.sort((a, b) => b.roomS - a.roomS);
    let best: Nearest | null = null;
    for (const { behind, roomS } of spots.slice(0, LOOKED_AT)) {
      // Where slack says how much is missing at least, no loop is smaller.
      if (best && -roomS > best.shortS) break;
      day.board.link(wanted, behind, eva);
      const loop = loopOf(day);
      day.board.unlink(wanted);
      if (!loop || (best && loop.shortS >= best.shortS)) continue;
      best = { ...loop, causes: loop.causes.filter((cause) => keyOf(cause) !== own), eva };
    }
    yield;
    if (best) nearest.push(best);
  }
  return { nearest: nearest.sort((a, b) => a.shortS - b.shortS || a.eva - b.eva), places };
}

/** The loop of times that does not close in the order of `schedule` itself; null when all close, or its crew cannot be read. */
export function ownLoop(lifting: Lifting, schedule: Schedule): Loop | null {
  const problem = provable(lifting.under(() => true));
  const { stands, unread } = read(problem, schedule);
  const order = [...stands].sort((x, y) => x.startS - y.startS || x.activity - y.activity);
  const day = new Day(problem);
  return unread.length === 0 && linkAll(day, order) ? loopOf(day) : null;
}
