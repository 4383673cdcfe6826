import type { GoIf, HomeIf, Limit, PrintedDay } from "../../answers/index.ts";
import { goIfs, homeIfs } from "../../check/index.ts";
import { type Consumable, type Eva, type Plan, STOCK_FIELDS, suitOn } from "../../plan/index.ts";
import { isToGive } from "../../words/index.ts";
import { departuresOf } from "./leaving/asprinted.ts";

/** What is asked of gauges, and by when somebody is in; nothing of a suit of which nobody has given what it holds. */

/** Whether somebody has given how much of a consumable the suit worn on an EVA holds. */
export function isStockGiven(plan: Plan, eva: string, crew: string, consumable: Consumable): boolean {
  return isGiven(plan, { eva, crew }, [STOCK_FIELDS[consumable]]);
}

/** Whether somebody has given how long the emergency oxygen of the suit worn on an EVA lasts. */
export function isEmergencyGiven(plan: Plan, at: Wearer): boolean {
  return isGiven(plan, at, [EMERGENCY]);
}

/** HOME IF of the plan; of a suit with a stock that nobody has given there is none. */
export function homeIfsGiven(plan: Plan): HomeIf[] {
  return homeIfs(plan).map((one) => (isSuitGiven(plan, one) ? one : { ...one, leastPct: null }));
}

/** GO IF of the day as printed; of a suit with a stock that nobody has given there is none. */
export function goIfsGiven(plan: Plan, day: PrintedDay): GoIf[] {
  return goIfs(plan, departuresOf(day)).filter((one) => isSuitGiven(plan, one));
}

/** Whether somebody has given how much the suit worn on an EVA holds of everything. */
export function isSuitGiven(plan: Plan, at: Wearer): boolean {
  return isGiven(plan, at, Object.values(STOCK_FIELDS));
}

/**
 * `limit` of an EVA; null where what a suit worn on it holds, or the length of the stay, is nobody's: what that allows may be less, so a
 * limit that is known is none.
 */
export function limitGiven(plan: Plan, { id, crew }: Eva, limit: Limit): Limit | null {
  const areGiven = crew.every((one) => {
    const at = { eva: id, crew: one };
    return isSuitGiven(plan, at) && isEmergencyGiven(plan, at);
  });
  return areGiven && !isToGive(plan.stay, "lengthS") ? limit : null;
}

/** What is said in place of a limit that is not given. */
export const NO_LIMIT = "unknown: a suit or the stay is not given";

const EMERGENCY = "emergencyOxygenS";

type Wearer = Pick<HomeIf, "eva" | "crew">;

function isGiven(plan: Plan, { eva, crew }: Wearer, fields: readonly string[]): boolean {
  const outing = plan.evas.find(({ id }) => id === eva);
  const suit = outing && suitOn(plan, outing, crew);
  return !!suit && fields.every((field) => !isToGive(suit, field));
}
