import {
  CONSUMABLES,
  drawPerSecond,
  heatPerSecond,
  metabolicW,
  type Mode,
  suitIn,
  type SuitModel,
  walkbackW,
  walkingW,
} from "../../physics/index.ts";
import { type Plan, type Suit, suitOn, type Task } from "../../plan/index.ts";
import {
  carryingW,
  environmentHeatOnEvaW,
  heavensOf,
  memory,
  numberOf,
  type Ways,
} from "../../terrain/index.ts";
import type { RouteKey } from "./outings.ts";

/** What happens each second: draws by kind of consumable, and heat in whole J. */
export interface Rate {
  readonly metabolicW: number;
  readonly draws: readonly number[];
  readonly heatJ: number;
}

/** One crew member in their suit on one EVA: the rates of all they may do there (S6, S7). */
export interface SuitRates {
  readonly rest: Rate;
  readonly airlock: Rate;
  /** On a walk-back that counts with a slope angle. */
  back(slopeRad: number): Rate;
  /** On the way in an entry of the ways. */
  way(cell: number): Rate;
  work(task: Task): Rate;
}

/** Pairs of places of the ways that all remembered suits are known on together. */
const PAIR_ROOM = 1_000_000;
const known = memory<{ readonly rates: SuitRates; readonly pairs: number }>(PAIR_ROOM, ({ pairs }) => pairs);

/** The suits of all `routes` as they are worn; the same object where nothing differs, from one plan to the next too. */
export function suitRatesOn(plan: Plan, ways: Ways, routes: readonly RouteKey[]): SuitRates[] {
  const heavens = heavensOf(plan);
  const { walking, walkback } = plan.rules;
  return routes.map((route): SuitRates => {
    const member = plan.crew[route.member]!;
    const suit = suitOn(plan, plan.evas[route.eva]!, member.id)!;
    const about = environmentHeatOnEvaW(heavens, suit, plan.evas[route.eva]!);
    const worn: Worn = {
      suit: { ...suit, id: "", name: "" },
      bodyMassKg: member.bodyMassKg,
      factor: member.workRateFactor,
      about,
      walking,
      walkback,
      gravityMs2: plan.body.gravityMs2,
    };
    const key = `${numberOf(ways)} ${JSON.stringify(worn)}`;
    return known.of(key, () => ({ rates: ratesOf(worn, ways), pairs: ways.durationS.length })).rates;
  });
}

/** All that decides what somebody in a suit draws. */
interface Worn {
  readonly suit: Suit;
  readonly bodyMassKg: number;
  readonly factor: number;
  /** Heat from the surroundings, W. */
  readonly about: number;
  readonly walking: Plan["rules"]["walking"];
  readonly walkback: Plan["rules"]["walkback"];
  readonly gravityMs2: number;
}

function ratesOf(
  { suit, bodyMassKg, factor, about, walking, walkback, gravityMs2 }: Worn,
  ways: Ways,
): SuitRates {
  const who = { factor, massKg: bodyMassKg + suit.massKg };
  // Of one shape whatever the plan says of a suit, and once a mode: ways alone ask some thousand times.
  const worn = (mode: Mode): SuitModel => modelOf(suitIn(suit, mode, about));
  const [standing, walkingIn, working] = [worn("standing"), worn("walking"), worn("working")];
  const rate = (now: SuitModel, watts: number): Rate => {
    const drawn = drawPerSecond(now, watts);
    return {
      metabolicW: watts,
      draws: CONSUMABLES.map((kind) => drawn[kind]),
      heatJ: heatPerSecond(now, watts),
    };
  };
  // Asked for every way of a site, and for every task again and again: once it is worked out, it is known.
  const backs = new Map<number, Rate>();
  const walks = new Map<number, Rate>();
  const works = new Map<number, Rate>();
  return {
    rest: rate(standing, metabolicW("rest", factor)),
    airlock: rate(working, metabolicW("egress-ingress", factor)),
    back: (slopeRad) =>
      once(backs, slopeRad, () =>
        rate(walkingIn, walkbackW(walkback.metabolicW, walking, who, gravityMs2, walkback.speedMs, slopeRad)),
      ),
    way: (cell) =>
      once(walks, cell, () =>
        rate(walkingIn, walkingW(walking, who, gravityMs2, ways.paceMs[cell]!, ways.slopeRad[cell]!)),
      ),
    work: (task) => {
      const carriedW = carryingW(ways, task, who.massKg, gravityMs2, walking.speedMs);
      const watts = metabolicW(task.effort, factor) + carriedW;
      return once(works, watts, () => rate(working, watts));
    },
  };
}

/** The numbers of a suit that rates are made of, always in one order. */
function modelOf(suit: SuitModel): SuitModel {
  const { oxygenKg, co2Kg, waterKg, batteryWh, leakKgH } = suit;
  const { electricalW, environmentW, respiratoryQuotient, coolingKjKg, absorbentKjKg } = suit;
  return {
    ...{ oxygenKg, co2Kg, waterKg, batteryWh, leakKgH },
    ...{ electricalW, environmentW, respiratoryQuotient, coolingKjKg, absorbentKjKg },
  };
}

function once(known: Map<number, Rate>, key: number, make: () => Rate): Rate {
  let one = known.get(key);
  if (!one) known.set(key, (one = make()));
  return one;
}
