import type { Plan } from "../plan/index.ts";
import { stops } from "../terrain/index.ts";
import { prepare } from "./prepared.ts";

/** The way back to the lander from a place, as the walk-back has it (W6). */
export interface WayHome {
  /** Place ids gone through, both ends included; none where there is no way. */
  readonly through: readonly string[];
  /** The walk-back, s; null where there is none. */
  readonly seconds: number | null;
  /** A leg that the planner gave is a part of it: nobody knows where it leads. */
  readonly leg: boolean;
}

/** The ways back to the lander of a plan, by place id. */
export function waysHome(plan: Plan): (place: string) => WayHome {
  const { back } = prepare(plan).home;
  return (place) => {
    const at = back.index.get(place);
    const seconds = at === undefined ? -1 : back.durationS[at * back.size + back.lander]!;
    if (at === undefined || seconds < 0) return { through: [], seconds: null, leg: false };
    const through = stops(back, at, back.lander).map((index) => plan.site.places[index]!.id);
    const isLeg = (from: string, to: string): boolean =>
      plan.site.legs.some(
        (leg) => (leg.from === from && leg.to === to) || (leg.bothWays && leg.from === to && leg.to === from),
      );
    return { through, seconds, leg: through.slice(1).some((to, k) => isLeg(through[k]!, to)) };
  };
}

/** Where the sun stands over a plan's site at a moment, degrees; null where that is not known. */
export function sunOver(
  plan: Plan,
): (atS: number) => { readonly azimuthDeg: number; readonly elevationDeg: number } | null {
  return prepare(plan).sunAt;
}
