import type { Plan } from "../plan/index.ts";

type Place = Plan["site"]["places"][number];
type Leg = Plan["site"]["legs"][number];

/** Ways between places at the planned speed, by id. */
export interface RehearsedWays {
  /** Seconds from one place to another; null where there is no way. */
  readonly secondsS: (from: string, to: string) => number | null;
  /** Metres walked; null where there is no way. */
  readonly metresM: (from: string, to: string) => number | null;
  /** Places gone through, both ends included; none where there is no way. */
  readonly through: (from: string, to: string) => readonly string[];
  /** Where somebody is on a direct way after so many seconds; null where nobody knows where it leads. */
  readonly pointOn: (
    from: string,
    to: string,
    goneS: number,
  ) => {
    readonly eastM: number;
    readonly northM: number;
    readonly upM: number;
    readonly straight: boolean;
  } | null;
  /** The ways with more places and legs. */
  readonly withMore: (places: readonly Place[], legs: readonly Leg[]) => RehearsedWays;
}

/** Seconds of the way between two places; none where they are the same or one of them is no place, or there is no way: the judge tells of that. */
export function wayS({ secondsS }: RehearsedWays, from: string | undefined, to: string | undefined): number {
  return from === undefined || to === undefined || from === to ? 0 : (secondsS(from, to) ?? 0);
}

/** The lander's place. */
export function landerOf(plan: Plan): string | undefined {
  return plan.site.places.find((place) => place.kind === "lander")?.id;
}
