import { courseOf } from "./course.ts";
import { gaitsOf } from "./gaits.ts";
import type { SiteInput } from "./ground.ts";
import type { Point } from "./shapes.ts";
import { stops, type Ways, waysOf } from "./ways.ts";

type WalkingPlan = Parameters<typeof gaitsOf>[0] & { readonly site: SiteInput };
type Place = SiteInput["places"][number];
type Leg = SiteInput["legs"][number];

/** Ways between places of a plan at the planned gait, by id, as judge and packer have them. */
export interface NamedWays {
  /** Seconds from one place to another; null where there is no way. */
  readonly secondsS: (from: string, to: string) => number | null;
  /** Metres walked; null where there is no way. */
  readonly metresM: (from: string, to: string) => number | null;
  /** Places gone through, both ends included; none where there is no way. */
  readonly through: (from: string, to: string) => readonly string[];
  /** Where somebody is on a direct way after so many seconds; null on a leg that the planner gave: nobody knows where it leads. */
  readonly pointOn: (from: string, to: string, goneS: number) => WayPoint | null;
  /** The ways with more places and legs. */
  readonly withMore: (places: readonly Place[], legs: readonly Leg[]) => NamedWays;
}

/** A point of a way. */
interface WayPoint extends Point {
  readonly upM: number;
  /** The way is a straight line: a way to this point is a part of it. */
  readonly straight: boolean;
}

/** The ways of `plan`. */
export function walksOf(plan: WalkingPlan): NamedWays {
  const ways = waysOf(plan.site, gaitsOf(plan).planned);
  const { index, size, durationS, distanceM } = ways;
  const known = (list: Int32Array, from: string, to: string): number | null => {
    const value = list[(index.get(from) ?? -1) * size + (index.get(to) ?? NaN)];
    return value === undefined || value < 0 ? null : value;
  };
  const more = new Map<string, NamedWays>();
  return {
    secondsS: (from, to) => known(durationS, from, to),
    metresM: (from, to) => known(distanceM, from, to),
    through: (from, to) =>
      known(durationS, from, to) === null
        ? []
        : stops(ways, index.get(from)!, index.get(to)!).map((at) => plan.site.places[at]!.id),
    pointOn: (from, to, goneS) => pointOn(plan.site, ways, index.get(from)!, index.get(to)!, goneS),
    withMore(places, legs) {
      // Asked for at every moment of a rehearsal, with few and mostly the same.
      const key = JSON.stringify([places, legs]);
      let walks = more.get(key);
      if (!walks) {
        const site = {
          ...plan.site,
          places: [...plan.site.places, ...places],
          legs: [...plan.site.legs, ...legs],
        };
        more.set(key, (walks = walksOf({ ...plan, site })));
      }
      return walks;
    },
  };
}

function pointOn(
  { places }: SiteInput,
  ways: Ways,
  from: number,
  to: number,
  goneS: number,
): WayPoint | null {
  const cell = from * ways.size + to;
  if (ways.legAt[cell]! >= 0) return null;
  const a = places[from]!;
  const b = places[to]!;
  const seconds = ways.durationS[cell]!;
  const course = courseOf(ways, places, cell, seconds);
  const points: readonly Point[] = course?.points ?? [a, b];
  const atS = course?.atS ?? [0, seconds];
  const k = Math.max(
    1,
    atS.findIndex((reachedS) => reachedS >= goneS),
  );
  const share = (goneS - atS[k - 1]!) / Math.max(1, atS[k]! - atS[k - 1]!);
  const on = (low: number, high: number): number => low + Math.min(1, share) * (high - low);
  return {
    eastM: on(points[k - 1]!.eastM, points[k]!.eastM),
    northM: on(points[k - 1]!.northM, points[k]!.northM),
    upM: a.upM + Math.min(1, goneS / Math.max(1, seconds)) * (b.upM - a.upM),
    straight: ways.trails === null,
  };
}
