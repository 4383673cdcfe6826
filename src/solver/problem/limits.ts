import { stocks } from "../../physics/index.ts";
import { type Plan, suitsWorn } from "../../plan/index.ts";
import { distance, type Ways } from "../../terrain/index.ts";
import type { Limits } from "./problem.ts";

/** What holds over a whole EVA, or the whole stay; `roamM` is how far anybody leaves their way. */
export function limitsOf(plan: Plan, ways: Ways, roamM: number): Limits {
  const { distance: walked, work, duty } = plan.rules;
  const stores = stocks({
    oxygenKg: plan.stores.oxygenKg,
    waterKg: plan.stores.waterKg,
    batteryWh: plan.stores.batteryWh,
    co2Kg: 0,
    leakKgH: 0,
    electricalW: 0,
    environmentW: 0,
    respiratoryQuotient: 1,
    coolingKjKg: 1,
    absorbentKjKg: 0,
  });
  const breach = (rule: { level: string }, value: number): number =>
    rule.level === "breach" ? value : Infinity;
  return {
    ...apartness(plan, ways, roamM),
    evaM: breach(walked, walked.evaM),
    stayM: breach(walked, walked.stayM),
    workS: breach(work, work.longestS),
    restS: work.restS,
    dutyS: breach(duty, duty.stayS),
    stores: Float64Array.of(stores.oxygen, 0, stores.water, stores.battery),
    changes: plan.stores.absorbentChanges,
    storesBind: storesBind(plan),
  };
}

/** How far two may be apart, and the straight lines between places, where that can bind at all. */
function apartness(plan: Plan, ways: Ways, roamM: number): Pick<Limits, "apartM" | "straightM"> {
  const { separation } = plan.rules;
  const { places } = plan.site;
  const pairs = plan.evas.some((eva) => eva.crew.length > 1);
  const straightM =
    separation.level === "breach" && pairs
      ? Float64Array.from(places.flatMap((a) => places.map((b) => distance(a, b))))
      : new Float64Array(0);
  const binds =
    straightM.some((metres) => metres + 2 * roamM > separation.greatestM) ||
    (straightM.length > 0 && extentM(ways) + 2 * roamM > separation.greatestM);
  return { apartM: binds ? separation.greatestM : Infinity, straightM };
}

/** Whether the stores can run short of what all outings together need. */
function storesBind(plan: Plan): boolean {
  const suits = new Map(plan.suits.map((suit) => [suit.id, suit]));
  // Every outing but the last in each suit is recharged for, at most a full suit each.
  const outings = plan.evas.flatMap((eva) => suitsWorn(plan, eva));
  const refills = outings.map((id) => suits.get(id)!);
  const most = (of: (suit: (typeof refills)[number]) => number): number =>
    refills.reduce((sum, suit) => sum + of(suit), 0);
  return (
    outings.length > new Set(outings).size &&
    (outings.length > plan.stores.absorbentChanges ||
      most((suit) => suit.oxygenKg) > plan.stores.oxygenKg ||
      most((suit) => suit.waterKg) > plan.stores.waterKg ||
      most((suit) => suit.batteryWh) > plan.stores.batteryWh)
  );
}

/** Corner to corner of the box round all ways over a height grid, m; 0 without one. */
function extentM({ trails }: Ways): number {
  if (!trails) return 0;
  let [west, east, south, north] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const trail of trails) {
    for (const { eastM, northM } of trail?.points ?? []) {
      west = Math.min(west, eastM);
      east = Math.max(east, eastM);
      south = Math.min(south, northM);
      north = Math.max(north, northM);
    }
  }
  return west > east ? 0 : Math.hypot(east - west, north - south);
}
