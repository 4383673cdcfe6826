import { CONSUMABLES, purgeOf, reserves, stocks } from "../../physics/index.ts";
import type { CrewMember, Plan, Suit } from "../../plan/index.ts";
import { gaitsOf, homeOf, type Ways, waysOf } from "../../terrain/index.ts";
import { NEVER } from "../problem.ts";

/** A crew member with the suit's whole-number stocks. */
export interface Walker {
  readonly member: CrewMember;
  readonly suit: Suit;
  /** Stock at egress (the purge is gone by then) by kind of consumable, and what of it is kept back. */
  readonly stock: readonly number[];
  readonly kept: readonly number[];
  /** Longest walk-back that emergency oxygen allows, s: less its reserve where the rule is no warning (S9). */
  readonly emergencyS: number;
}

/** Ways and walk-backs of the site as the rules see them. */
export interface Ground {
  readonly ways: Ways;
  readonly homeS: Int32Array;
  readonly peakS: Int32Array;
  readonly walkers: readonly Walker[];
  /** By crew member: walking time, NEVER where there is no way or the walk-back on it is too long. */
  readonly legS: readonly Int32Array[];
  /** True when `member` may work at `place` at all (no-way, walk-back-emergency). */
  mayStand(member: number, place: number): boolean;
  /** True when `member` may walk inside a task from `place` to `endPlace`: over a height grid as on any way. */
  mayWalk(member: number, place: number, endPlace: number): boolean;
}

/** Works out ways, walk-backs and who may go where; with `boundless` as if emergency oxygen lasted for ever. */
export function groundOf(plan: Plan, boundless = false): Ground {
  const { walkback } = plan.rules;
  const gaits = gaitsOf(plan);
  const ways = waysOf(plan.site, gaits.planned);
  const home = homeOf(plan.site, ways, gaits.back);
  const suits = new Map(plan.suits.map((suit) => [suit.id, suit]));
  const walkers = plan.crew.map((member): Walker => {
    const suit = suits.get(member.suit)!;
    const full = stocks(suit);
    const kept = reserves(full, suit.reserve);
    const packS = suit.emergencyOxygenS - (walkback.level === "breach" ? walkback.emergencyReserveS : 0);
    return {
      member,
      suit,
      stock: CONSUMABLES.map((kind) => full[kind] - (kind === "oxygen" ? purgeOf(suit) : 0)),
      kept: CONSUMABLES.map((kind) => kept[kind]),
      emergencyS: boundless ? Infinity : packS,
    };
  });
  const mayStand = (member: number, place: number): boolean => {
    const backS = home.placeS[place]!;
    return backS >= 0 && backS <= walkers[member]!.emergencyS;
  };
  const mayWalk = (member: number, place: number, endPlace: number): boolean => {
    if (!ways.trails || place === endPlace) return true;
    const cell = place * ways.size + endPlace;
    return ways.durationS[cell]! >= 0 && home.peakS[cell]! <= walkers[member]!.emergencyS;
  };
  const byLimit = new Map<number, Int32Array>();
  const legS = walkers.map(({ emergencyS }) => {
    let legs = byLimit.get(emergencyS);
    if (!legs) {
      legs = ways.durationS.map((seconds, cell) =>
        seconds < 0 || home.peakS[cell]! < 0 || home.peakS[cell]! > emergencyS ? NEVER : seconds,
      );
      byLimit.set(emergencyS, legs);
    }
    return legs;
  });
  return { ways, homeS: home.placeS, peakS: home.peakS, walkers, legS, mayStand, mayWalk };
}
