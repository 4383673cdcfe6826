import type { GoIf, HomeIf } from "../../answers/index.ts";
import { goIfs, homeIfs } from "../../check/index.ts";
import { type Consumable, type Plan, suitOn } from "../../plan/index.ts";
import { isToGive } from "../../words/index.ts";

/** What is asked of gauges, and nothing of a suit of which nobody has given what it holds. */

const STOCKS = { oxygen: "oxygenKg", co2: "co2Kg", water: "waterKg", battery: "batteryWh" } as const;

/** Whether somebody has given how much of a consumable the suit worn on an EVA holds. */
export function isStockGiven(plan: Plan, eva: string, crew: string, consumable: Consumable): boolean {
  const outing = plan.evas.find(({ id }) => id === eva);
  const suit = outing && suitOn(plan, outing, crew);
  return suit !== undefined && suit !== null && !isToGive(suit, STOCKS[consumable]);
}

/** HOME IF of the plan; of a suit with a stock that nobody has given there is none. */
export function homeIfsGiven(plan: Plan): HomeIf[] {
  return homeIfs(plan).map((one) => (isSuitGiven(plan, one) ? one : { ...one, leastPct: null }));
}

/** GO IF of the plan; of a suit with a stock that nobody has given there is none. */
export function goIfsGiven(plan: Plan): GoIf[] {
  return goIfs(plan).filter((one) => isSuitGiven(plan, one));
}

function isSuitGiven(plan: Plan, { eva, crew }: Pick<HomeIf, "eva" | "crew">): boolean {
  return (["oxygen", "co2", "water", "battery"] as const).every((one) => isStockGiven(plan, eva, crew, one));
}
