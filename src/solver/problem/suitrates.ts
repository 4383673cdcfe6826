import {
  CONSUMABLES,
  drawPerSecond,
  heatPerSecond,
  metabolicW,
  type Mode,
  suitIn,
  walkbackW,
  walkingW,
} from "../../physics/index.ts";
import { type Plan, suitOn, type Task } from "../../plan/index.ts";
import { carryingW, heavensOf, environmentHeatOnEvaW, type Ways } from "../../terrain/index.ts";
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

/** The suits of all `routes` as they are worn; the same object where nothing differs. */
export function suitRatesOn(plan: Plan, ways: Ways, routes: readonly RouteKey[]): SuitRates[] {
  const heavens = heavensOf(plan);
  const { walking, walkback } = plan.rules;
  const { gravityMs2 } = plan.body;
  const known = new Map<string, SuitRates>();
  return routes.map((route) => {
    const member = plan.crew[route.member]!;
    const suit = suitOn(plan, plan.evas[route.eva]!, member.id)!;
    const factor = member.workRateFactor;
    const who = { factor, massKg: member.bodyMassKg + suit.massKg };
    const about = environmentHeatOnEvaW(heavens, suit, plan.evas[route.eva]!);
    const key = JSON.stringify([member.bodyMassKg, factor, { ...suit, id: "", name: "" }, about]);
    const same = known.get(key);
    if (same) return same;
    const rate = (mode: Mode, watts: number): Rate => {
      const now = suitIn(suit, mode, about);
      const drawn = drawPerSecond(now, watts);
      return {
        metabolicW: watts,
        draws: CONSUMABLES.map((kind) => drawn[kind]),
        heatJ: heatPerSecond(now, watts),
      };
    };
    // Asked for every way of a site, and for every task twice: once it is worked out, it is known.
    const backs = new Map<number, Rate>();
    const walks = new Map<number, Rate>();
    const works = new Map<number, Rate>();
    const suitRates: SuitRates = {
      rest: rate("standing", metabolicW("rest", factor)),
      airlock: rate("working", metabolicW("egress-ingress", factor)),
      back: (slopeRad) =>
        once(backs, slopeRad, () =>
          rate(
            "walking",
            walkbackW(walkback.metabolicW, walking, who, gravityMs2, walkback.speedMs, slopeRad),
          ),
        ),
      way: (cell) =>
        once(walks, cell, () =>
          rate("walking", walkingW(walking, who, gravityMs2, ways.paceMs[cell]!, ways.slopeRad[cell]!)),
        ),
      work: (task) => {
        const carriedW = carryingW(ways, task, who.massKg, gravityMs2, walking.speedMs);
        const watts = metabolicW(task.effort, factor) + carriedW;
        return once(works, watts, () => rate("working", watts));
      },
    };
    known.set(key, suitRates);
    return suitRates;
  });
}

function once(known: Map<number, Rate>, key: number, make: () => Rate): Rate {
  let one = known.get(key);
  if (!one) known.set(key, (one = make()));
  return one;
}
