import { CONSUMABLES, purgeOf, reserves, stocks } from "../../physics/index.ts";
import { type Plan, sharingSuits, type Suit, suitOn, type Task } from "../../plan/index.ts";
import {
  gaitsOf,
  homeOf,
  type Inside,
  type InsideHome,
  insideHome,
  insideOf,
  legFaults,
  type Ways,
  waysByFaults,
  waysOf,
} from "../../terrain/index.ts";
import { routesOf } from "./outings.ts";
import { NEVER } from "./problem.ts";

/** What a crew member wears on an EVA, with its whole-number stocks. */
interface Walker {
  readonly suit: Suit;
  /** Stock at egress (the purge is gone by then) by kind of consumable, and what of it is kept back. */
  readonly stock: readonly number[];
  readonly kept: readonly number[];
  /** Longest walk-back that emergency oxygen allows, s: less its reserve where the rule is no warning (S9). */
  readonly emergencyS: number;
}

/** Ways and walk-backs of the site as the rules see them. */
export interface LegTable {
  readonly ways: Ways;
  readonly homeS: Int32Array;
  readonly peakS: Int32Array;
  /** Slope angles that these walk-backs count with. */
  readonly homeSlopeRad: Float64Array;
  readonly peakSlopeRad: Float64Array;
  /** For each entry of the ways the first one of the same slope and pace: walking it draws as much a second. */
  readonly standsFor: Int32Array;
  /** By entry of the ways: 1 where the way goes by a given leg that nobody can walk (walking-physics); null without any. */
  readonly beyond: Uint8Array | null;
  /** By route. */
  readonly walkers: readonly Walker[];
  /** By route: walking time, NEVER where there is no way or the walk-back on it is too long. */
  readonly legS: readonly Int32Array[];
  /** True when the crew of an EVA may go out together: nobody wears another's suit (suit-worn-once). */
  mayFly(eva: number): boolean;
  /** True when the crew member of `route` may work at `place` at all (no-way, walk-back-emergency). */
  mayStand(route: number, place: number): boolean;
  /** What is walked inside a task, and the longest walk-back from there (S5). */
  inside(task: Task): Inside;
  insideHome(inside: Inside): InsideHome;
  /** True when the crew member of `route` may walk so inside a task: there is a way, nothing beats physics, and the walk-back is not too long. */
  mayWalk(route: number, inside: Inside): boolean;
}

/** Works out ways, walk-backs and who may go where; with `boundless` as if emergency oxygen lasted for ever. */
export function legTableOf(plan: Plan, boundless = false): LegTable {
  const { walkback } = plan.rules;
  const gaits = gaitsOf(plan);
  const ways = waysOf(plan.site, gaits.planned);
  const home = homeOf(plan.site, ways, gaits.back);
  const beyond = waysByFaults(ways, legFaults(plan.site, gaits.planned));
  const walkers = routesOf(plan).map(({ eva, member }): Walker => {
    const suit = suitOn(plan, plan.evas[eva]!, plan.crew[member]!.id)!;
    const full = stocks(suit);
    const kept = reserves(full, suit.reserve);
    const packS = suit.emergencyOxygenS - (walkback.level === "breach" ? walkback.emergencyReserveS : 0);
    return {
      suit,
      stock: CONSUMABLES.map((kind) => full[kind] - (kind === "oxygen" ? purgeOf(suit) : 0)),
      kept: CONSUMABLES.map((kind) => kept[kind]),
      emergencyS: boundless ? Infinity : packS,
    };
  });
  const mayFly = (eva: number): boolean => sharingSuits(plan, plan.evas[eva]!).length === 0;
  const mayStand = (route: number, place: number): boolean => {
    const backS = home.placeS[place]!;
    return backS >= 0 && backS <= walkers[route]!.emergencyS;
  };
  const inside = (task: Task): Inside => insideOf(ways, task, gaits.planned.speedMs);
  const homeInside = (one: Inside): InsideHome => insideHome(home, one, gaits.back.speedMs);
  const mayWalk = (route: number, one: Inside): boolean => {
    const { seconds } = homeInside(one);
    if (one.leastS < 0 || seconds < 0 || (one.cell >= 0 && beyond?.[one.cell] === 1)) return false;
    return seconds <= walkers[route]!.emergencyS;
  };
  const byLimit = new Map<number, Int32Array>();
  const legS = walkers.map(({ emergencyS }) => {
    let legs = byLimit.get(emergencyS);
    if (!legs) {
      legs = ways.durationS.map((seconds, cell) =>
        seconds < 0 || beyond?.[cell] === 1 || home.peakS[cell]! < 0 || home.peakS[cell]! > emergencyS
          ? NEVER
          : seconds,
      );
      byLimit.set(emergencyS, legs);
    }
    return legs;
  });
  return {
    ways,
    standsFor: alikeWays(ways),
    homeS: home.placeS,
    peakS: home.peakS,
    homeSlopeRad: home.placeSlopeRad,
    peakSlopeRad: home.peakSlopeRad,
    beyond,
    walkers,
    legS,
    mayFly,
    mayStand,
    inside,
    insideHome: homeInside,
    mayWalk,
  };
}

/** Worked out once for ways: every compile of a plan asks. */
const alike = new WeakMap<Ways, Int32Array>();

function alikeWays(ways: Ways): Int32Array {
  let standsFor = alike.get(ways);
  if (!standsFor) {
    const bySlope = new Map<number, Map<number, number>>();
    standsFor = Int32Array.from(ways.slopeRad, (slope, cell) => {
      let ofSlope = bySlope.get(slope);
      if (!ofSlope) bySlope.set(slope, (ofSlope = new Map()));
      const pace = ways.paceMs[cell]!;
      const first = ofSlope.get(pace);
      if (first === undefined) ofSlope.set(pace, cell);
      return first ?? cell;
    });
    alike.set(ways, standsFor);
  }
  return standsFor;
}
