import { gaitsOf } from "./gaits.ts";
import { stops, waysOf } from "./ways.ts";

type WalkingPlan = Parameters<typeof gaitsOf>[0] & { readonly site: Parameters<typeof waysOf>[0] };

/** Ways between places of a plan at the planned gait, by id, as judge and packer have them. */
export interface Walks {
  /** Seconds from one place to another; null where there is no way. */
  readonly secondsS: (from: string, to: string) => number | null;
  /** Metres walked; null where there is no way. */
  readonly metresM: (from: string, to: string) => number | null;
  /** Places gone through, both ends included; none where there is no way. */
  readonly through: (from: string, to: string) => readonly string[];
}

/** The ways of `plan`. */
export function walksOf(plan: WalkingPlan): Walks {
  const ways = waysOf(plan.site, gaitsOf(plan).planned);
  const { index, size, durationS, distanceM } = ways;
  const cell = (from: string, to: string): number => (index.get(from) ?? -1) * size + (index.get(to) ?? -1);
  const known = (list: Int32Array, from: string, to: string): number | null => {
    const value = index.has(from) && index.has(to) ? list[cell(from, to)] : undefined;
    return value === undefined || value < 0 ? null : value;
  };
  return {
    secondsS: (from, to) => known(durationS, from, to),
    metresM: (from, to) => known(distanceM, from, to),
    through: (from, to) =>
      known(durationS, from, to) === null
        ? []
        : stops(ways, index.get(from)!, index.get(to)!).map((at) => plan.site.places[at]!.id),
  };
}
