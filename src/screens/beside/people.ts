import type { SiteCourse, SiteLeg, SiteWalks } from "../../answers/index.ts";
import { valueAt } from "../../editor/index.ts";
import { afootAt, type Box, type MapPoint } from "../../editor/map/index.ts";
import type { Plan } from "../../plan/index.ts";
import { crewName, lasting, metres, placeName, taskName, taskNumber } from "../../words/index.ts";

/** Where each crew member is at a minute, by the judge's own day. */
export interface Person {
  readonly crew: string;
  /** Their sign on the map: their place among the plan's crew, from 1. */
  readonly sign: number;
  /** Null where nobody can say, and for who is inside. */
  readonly at: (MapPoint & { readonly leg: SiteLeg }) | null;
  /** outside: `at` is where. inside: in the lander. unknown: outside, but the day has them nowhere, or in two places at once. */
  readonly state: "outside" | "inside" | "unknown";
}

/** Everybody of the plan at a minute. */
export function peopleAt(plan: Plan, courses: readonly SiteCourse[], atS: number): readonly Person[] {
  return plan.crew.map(({ id: crew }, k): Person => {
    const sign = k + 1;
    const own = courses.filter((one) => one.crew === crew && isOut(one, atS));
    if (own.length === 0) return { crew, sign, at: null, state: "inside" };
    const [only] = own;
    const at = own.length === 1 && only ? afootAt(only.legs, atS) : null;
    if (!at || !only || contradicted(only.legs, at.leg, atS))
      return { crew, sign, at: null, state: "unknown" };
    return { crew, sign, at, state: "outside" };
  });
}

function isOut({ legs }: SiteCourse, atS: number): boolean {
  const first = legs[0];
  return first !== undefined && first.startS <= atS && atS <= Math.max(...legs.map((leg) => leg.endS));
}

/** True where another stretch is under way at the same time: a day that breaks its rules may have somebody in two places. */
function contradicted(legs: readonly SiteLeg[], shown: SiteLeg, atS: number): boolean {
  return legs.some((leg) => leg !== shown && leg.startS < atS && atS < leg.endS);
}

/** `16 Lay the string, home in 5 min`, `on the way to Pebble Row`, `inside`. A walk-back is the longest inside the task, rounded up. */
export function personWords(plan: Plan, walks: SiteWalks, { at, state }: Person): string {
  if (state === "inside") return "inside";
  if (state === "unknown" || !at) return "where is not known: the day has them in two places, or nowhere";
  const { leg } = at;
  if (leg.kind === "traverse") return `on the way to ${placeName(plan, leg.toPlace)}`;
  if (leg.task === null) return STILL_WORDS[leg.kind] + placeName(plan, leg.fromPlace);
  const homeS = walks.verdict.walkbackS[leg.task];
  const home =
    homeS === undefined || homeS === null ? "no way home known" : `home in ${lasting(homeS, "up")}`;
  return `${taskNumber(plan, leg.task)} ${taskName(plan, leg.task)}, ${home}`;
}

const STILL_WORDS: Readonly<Record<Exclude<SiteLeg["kind"], "traverse">, string>> = {
  egress: "egress at ",
  ingress: "ingress at ",
  wait: "waiting at ",
  task: "at ",
};

/** `60 m apart of 500 m` for each two who are out together at the minute; nothing where the judge has no distance. */
export function apartWords(plan: Plan, { verdict }: SiteWalks, atS: number): readonly string[] {
  const limit = plan.rules.separation.greatestM;
  return verdict.separation.flatMap((track) => {
    const apartM = valueAt(track, atS);
    if (apartM === null) return [];
    const who = plan.crew.length > 2 ? `${track.crew.map((one) => crewName(plan, one)).join(" and ")} ` : "";
    return [`${who}${metres(apartM, "up")} apart of ${metres(limit, "down")}`];
  });
}

/** So near to each other two signs stand side by side, pixels, and so far a sign reaches about its middle. */
const BESIDE_PX = 17;
const REACH_PX = 10;
/** Signs are put aside by so many steps at most. */
const STEPS = 8;

/**
 * Where the signs of people stand who are at these points: each at its own, or where another stands there already beside it, and
 * then on no plate as long as there is a way round it.
 */
export function signPoints(points: readonly ScreenPoint[], plates: readonly Box[]): readonly ScreenPoint[] {
  const put: ScreenPoint[] = [];
  for (const { x, y } of points) {
    const aside = Array.from({ length: STEPS }, (_, k) => (k + 1) * BESIDE_PX).flatMap((by) => [
      { x: x - by, y },
      { x: x + by, y },
      { x, y: y - by },
      { x, y: y + by },
    ]);
    const free = [{ x, y }, ...aside].filter((point) =>
      put.every((one) => Math.hypot(one.x - point.x, one.y - point.y) >= BESIDE_PX),
    );
    const clear =
      free.find((point) => point.x === x && point.y === y) ?? free.find((point) => !onPlate(point, plates));
    put.push(clear ?? free[0] ?? { x, y });
  }
  return put;
}

interface ScreenPoint {
  readonly x: number;
  readonly y: number;
}

function onPlate({ x, y }: ScreenPoint, plates: readonly Box[]): boolean {
  return plates.some(
    ({ left, top, right, bottom }) =>
      x > left - REACH_PX && x < right + REACH_PX && y > top - REACH_PX && y < bottom + REACH_PX,
  );
}
