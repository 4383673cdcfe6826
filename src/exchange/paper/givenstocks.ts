import type { GoIf, HomeIf } from "../../answers/index.ts";
import { goIfs, homeIfs } from "../../check/index.ts";
import { type Consumable, type Plan, STOCK_FIELDS, suitOn } from "../../plan/index.ts";
import { isToGive } from "../../words/index.ts";

/** What is asked of gauges, and nothing of a suit of which nobody has given what it holds. */

/** Whether somebody has given how much of a consumable the suit worn on an EVA holds. */
export function isStockGiven(plan: Plan, eva: string, crew: string, consumable: Consumable): boolean {
  return isGiven(plan, { eva, crew }, [STOCK_FIELDS[consumable]]);
}

/** HOME IF of the plan; of a suit with a stock that nobody has given there is none. */
export function homeIfsGiven(plan: Plan): HomeIf[] {
  return homeIfs(plan).map((one) => (isSuitGiven(plan, one) ? one : { ...one, leastPct: null }));
}

/** GO IF of the plan; of a suit with a stock that nobody has given there is none. */
export function goIfsGiven(plan: Plan): GoIf[] {
  return goIfs(plan).filter((one) => isSuitGiven(plan, one));
}

/** Whether somebody has given how much the suit worn on an EVA holds of everything. */
export function isSuitGiven(plan: Plan, at: Wearer): boolean {
  return isGiven(plan, at, Object.values(STOCK_FIELDS));
}

type Wearer = Pick<HomeIf, "eva" | "crew">;

function isGiven(plan: Plan, { eva, crew }: Wearer, fields: readonly string[]): boolean {
  const outing = plan.evas.find(({ id }) => id === eva);
  const suit = outing && suitOn(plan, outing, crew);
  return !!suit && fields.every((field) => !isToGive(suit, field));
}
