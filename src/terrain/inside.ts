import type { Home } from "./home.ts";
import type { Ways } from "./ways.ts";

/**
 * Walking inside a task.
 *
 * Who ends a task elsewhere than they began it has walked the way between, and whatever the task says they walked beyond that led
 * them off it and back: half of it out, half of it home. Range: a planned pace on foot. Not covered: where such a detour leads,
 * and its slopes: it is taken to be on the level and straight away from everything.
 */

/** The part of a task that says how it is walked. */
export interface WalkedTask {
  readonly place?: string | undefined;
  readonly endPlace?: string | undefined;
  readonly walkM: number;
}

/** What is walked inside a task. */
export interface Inside {
  /** Place indices at both ends; the lander where the task names none. */
  readonly from: number;
  readonly to: number;
  /** Entry in the ways of the way from one to the other; -1 where the task ends where it begins. */
  readonly cell: number;
  /** Walked in all, whole metres: at least the way. */
  readonly walkM: number;
  /** Seconds that walking it takes at least, whole; -1 where no way leads from one end to the other. */
  readonly leastS: number;
  /** How far it may lead off the way, or off the place, m. */
  readonly roamM: number;
}

/** What is walked inside `task` along `ways`, planned at the level speed `speedMs`. */
export function insideOf(ways: Ways, task: WalkedTask, speedMs: number): Inside {
  const from = (task.place === undefined ? undefined : ways.index.get(task.place)) ?? ways.lander;
  const to = (task.endPlace === undefined ? undefined : ways.index.get(task.endPlace)) ?? from;
  const cell = from === to ? -1 : from * ways.size + to;
  const wayM = cell < 0 ? 0 : Math.max(0, ways.distanceM[cell]!);
  const wayS = cell < 0 ? 0 : ways.durationS[cell]!;
  const moreM = Math.max(0, task.walkM - wayM);
  return {
    from,
    to,
    cell,
    walkM: Math.max(Math.ceil(task.walkM), wayM),
    leastS: wayS < 0 ? -1 : wayS + Math.ceil(moreM / speedMs - 1e-6),
    roamM: moreM / 2,
  };
}

/** The longest walk-back from anywhere inside a task. */
export interface InsideHome {
  /** Whole seconds; -1 where there is no way home. */
  readonly seconds: number;
  /** Slope angle that it counts with, radians. */
  readonly slopeRad: number;
}

/**
 * The longest walk-back inside a task: the worst of the way between its ends, or its place, and before that back by the way that
 * led off it, on the level at the walk-back speed `backMs`.
 */
export function insideHome(home: Home, { from, cell, roamM }: Inside, backMs: number): InsideHome {
  const seconds = cell < 0 ? home.placeS[from]! : home.peakS[cell]!;
  const slopeRad = cell < 0 ? home.placeSlopeRad[from]! : home.peakSlopeRad[cell]!;
  return { seconds: seconds < 0 ? -1 : seconds + Math.ceil(roamM / backMs - 1e-6), slopeRad };
}
