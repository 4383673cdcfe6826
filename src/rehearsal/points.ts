import type { Plan } from "../plan/index.ts";
import type { Walks } from "./walking.ts";

/** Ids of points between two places: they begin with this. */
const POINT = "rehearsed-at-";

/** A point on a way, where what somebody walked to was called off: it is a place from then on. */
export interface Point {
  readonly id: string;
  /** Where they came from, and what of the way to here is behind them. */
  readonly start: string;
  readonly walkedS: number;
  readonly walkedM: number;
  /** The two places it lies between, and the share of that hop that is behind them, 0 to 1. */
  readonly from: string;
  readonly to: string;
  readonly share: number;
}

/** The point that is reached on the way from `start` to `end` after `walkedS`; null where there is no such way or it is at its end by then. */
export function pointOn(
  walks: Walks,
  start: string,
  end: string,
  walkedS: number,
  nth: number,
): Point | null {
  const path = walks.through(start, end);
  let restS = walkedS;
  let walkedM = 0;
  for (let k = 1; k < path.length; k += 1) {
    const from = path[k - 1]!;
    const to = path[k]!;
    const hopS = walks.secondsS(from, to) ?? 0;
    const hopM = walks.metresM(from, to) ?? 0;
    if (restS < hopS) {
      const share = restS / hopS;
      walkedM += share * hopM;
      return { id: `${POINT}${nth}`, start, walkedS, walkedM, from, to, share };
    }
    restS -= hopS;
    walkedM += hopM;
  }
  return null;
}

/** The ways of a plan with those from points: on or back, whichever is there sooner, in whole seconds and metres rounded up. */
export function walksWith(walks: Walks, points: readonly Point[]): Walks {
  if (points.length === 0) return walks;
  const byId = new Map(points.map((point) => [point.id, point]));
  const known = new Map<string, Way | null>();
  const wayOf = (from: string, to: string): Way | null => {
    const key = `${from} ${to}`;
    let way = known.get(key);
    if (way === undefined) known.set(key, (way = workedOut(from, to)));
    return way;
  };
  const workedOut = (from: string, to: string): Way | null => {
    if (from === to) return { seconds: 0, metres: 0 };
    const target = byId.get(to);
    if (target?.start === from) return { seconds: target.walkedS, metres: Math.ceil(target.walkedM) };
    if (target) return null;
    const point = byId.get(from);
    if (point)
      return sooner(part(point.to, 1 - point.share, point, to), part(point.from, point.share, point, to));
    const seconds = walks.secondsS(from, to);
    const metres = walks.metresM(from, to);
    return seconds === null || metres === null ? null : { seconds, metres };
  };
  /** From a point by the end `by` of its hop, of which `share` is before them. */
  const part = (by: string, share: number, { from, to }: Point, target: string): Way | null => {
    // Back to a point there is no way of its own: it is as long as the way on.
    const hop =
      (by === from ? wayOf(to, from) : null) ?? (by === to || isPoint(from) ? wayOf(from, to) : null);
    const then = wayOf(by, target);
    if (!hop || !then) return null;
    return {
      seconds: Math.ceil(share * hop.seconds - 1e-9) + then.seconds,
      metres: Math.ceil(share * hop.metres - 1e-9) + then.metres,
    };
  };
  return {
    secondsS: (from, to) => wayOf(from, to)?.seconds ?? null,
    metresM: (from, to) => wayOf(from, to)?.metres ?? null,
    through: (from, to) =>
      byId.has(from) || byId.has(to) ? (wayOf(from, to) ? [from, to] : []) : walks.through(from, to),
  };
}

function isPoint(id: string): boolean {
  return id.startsWith(POINT);
}

interface Way {
  readonly seconds: number;
  readonly metres: number;
}

function sooner(a: Way | null, b: Way | null): Way | null {
  if (!a || !b) return a ?? b;
  return a.seconds <= b.seconds ? a : b;
}

/** The site with its points as places, and their ways as legs: nobody has measured others from there. */
export function siteWith(site: Plan["site"], points: readonly Point[], walks: Walks): Plan["site"] {
  if (points.length === 0) return site;
  const places = [...site.places];
  const legs = [...site.legs];
  const leg = (from: string, to: string): void => {
    const durationS = walks.secondsS(from, to);
    const distanceM = walks.metresM(from, to);
    if (durationS === null || distanceM === null) return;
    legs.push({
      from,
      to,
      distanceM,
      durationS: durationS as (typeof legs)[number]["durationS"],
      bothWays: false,
    });
  };
  for (const point of points) {
    const from = places.find(({ id }) => id === point.from);
    const to = places.find(({ id }) => id === point.to);
    if (!from || !to) continue;
    const at = (a: number, b: number): number => a + point.share * (b - a);
    leg(point.start, point.id);
    for (const { id } of places) leg(point.id, id);
    places.push({
      ...from,
      id: point.id,
      name: `between ${from.name} and ${to.name}`.slice(0, 120),
      kind: "station",
      eastM: at(from.eastM, to.eastM),
      northM: at(from.northM, to.northM),
      upM: at(from.upM, to.upM),
    });
  }
  return { ...site, places, legs };
}
