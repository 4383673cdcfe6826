import type { MapPoint } from "./frame.ts";

/** Somebody's way over the ground in time. Pure geometry. */
export interface Leg {
  readonly startS: number;
  readonly endS: number;
  /** East, north and seconds of every corner, one after the other. */
  readonly course: ArrayLike<number>;
}

/** Where somebody is at a moment and which leg that is; null outside of all legs. */
export function afootAt<L extends Leg>(
  legs: readonly L[],
  atS: number,
): (MapPoint & { readonly leg: L }) | null {
  // The later of two legs that meet: who arrives is there.
  const leg = legs.findLast((one) => one.startS <= atS && atS <= one.endS);
  if (!leg) return null;
  return { ...pointOn(leg.course, atS), leg };
}

/** The point of a course at a moment; its ends before and after it. */
export function pointOn(course: ArrayLike<number>, atS: number): MapPoint {
  const corners = course.length / 3;
  let k = 0;
  while (k + 1 < corners && course[3 * (k + 1) + 2]! <= atS) k += 1;
  const a = { eastM: course[3 * k]!, northM: course[3 * k + 1]!, atS: course[3 * k + 2]! };
  if (k + 1 >= corners || atS <= a.atS) return { eastM: a.eastM, northM: a.northM };
  const share = (atS - a.atS) / (course[3 * k + 5]! - a.atS);
  return {
    eastM: a.eastM + (course[3 * k + 3]! - a.eastM) * share,
    northM: a.northM + (course[3 * k + 4]! - a.northM) * share,
  };
}

/** Whole multiples of `everyS` on the legs that move, with where they are passed. */
export function passedAt(legs: readonly Leg[], everyS: number): (MapPoint & { readonly atS: number })[] {
  return legs.flatMap((leg) => {
    if (leg.course.length < 6) return [];
    const marks = [];
    for (let atS = Math.ceil(leg.startS / everyS) * everyS; atS < leg.endS; atS += everyS)
      marks.push({ ...pointOn(leg.course, atS), atS });
    return marks;
  });
}

/** When somebody stands where, stays of one place joined: for a label "15:02–15:37". */
export interface Visit {
  readonly place: string;
  readonly startS: number;
  readonly endS: number;
}

/** The stays at places: everything between two walks. */
export function visitsOf(
  legs: readonly (Leg & { readonly kind: string; readonly fromPlace: string; readonly toPlace: string })[],
): Visit[] {
  const visits: Visit[] = [];
  for (const leg of legs) {
    if (leg.kind === "traverse") continue;
    const last = visits.at(-1);
    const lasts = last !== undefined && last.place === leg.fromPlace && leg.startS <= last.endS;
    if (lasts) visits[visits.length - 1] = { ...last, endS: Math.max(last.endS, leg.endS) };
    else visits.push({ place: leg.fromPlace, startS: leg.startS, endS: leg.endS });
    // A task that ends elsewhere is a walk of its own.
    if (leg.toPlace !== leg.fromPlace) visits.push({ place: leg.toPlace, startS: leg.endS, endS: leg.endS });
  }
  return visits;
}

/** `course` shifted to its left (right where negative), for two who walk side by side: flat east and north, metres. */
export function beside(course: ArrayLike<number>, byM: number): Float64Array {
  const corners = course.length / 3;
  const line = new Float64Array(2 * corners);
  for (let k = 0; k < corners; k += 1) {
    const before = Math.max(0, k - 1);
    const behind = Math.min(corners - 1, k + 1);
    const east = course[3 * behind]! - course[3 * before]!;
    const north = course[3 * behind + 1]! - course[3 * before + 1]!;
    const length = Math.hypot(east, north);
    const share = length === 0 ? 0 : byM / length;
    line[2 * k] = course[3 * k]! - north * share;
    line[2 * k + 1] = course[3 * k + 1]! + east * share;
  }
  return line;
}
