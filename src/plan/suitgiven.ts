import { type Consumable, type Eva, STOCK_FIELDS } from "./crew.ts";
import type { Plan } from "./plan.ts";
import { suitOn } from "./wearing.ts";

/** Whether somebody has given what the suits worn on an EVA hold: a margin of what nobody has given is assumed. */

interface Wearer {
  readonly eva: string;
  readonly crew: string;
}

/** Whether somebody has given how much of a consumable the suit worn on an EVA holds. */
export function isStockGiven(plan: Plan, at: Wearer, consumable: Consumable): boolean {
  return isGiven(plan, at, [STOCK_FIELDS[consumable]]);
}

/** Whether somebody has given how long the emergency oxygen of the suit worn on an EVA lasts. */
export function isEmergencyGiven(plan: Plan, at: Wearer): boolean {
  return isGiven(plan, at, ["emergencyOxygenS"]);
}

/** Whether somebody has given how much the suit worn on an EVA holds of everything. */
export function isSuitGiven(plan: Plan, at: Wearer): boolean {
  return isGiven(plan, at, Object.values(STOCK_FIELDS));
}

/** Whether somebody has given all that bounds an EVA beside its own times: what every suit worn on it holds, and how long the stay is. */
export function isLimitGiven(plan: Plan, { id, crew }: Pick<Eva, "id" | "crew">): boolean {
  const areSuits = crew.every((one) => {
    const at = { eva: id, crew: one };
    return isSuitGiven(plan, at) && isEmergencyGiven(plan, at);
  });
  return areSuits && plan.stay.toGive?.includes("lengthS") !== true;
}

function isGiven(plan: Plan, { eva, crew }: Wearer, fields: readonly string[]): boolean {
  const outing = plan.evas.find(({ id }) => id === eva);
  const suit = outing && suitOn(plan, outing, crew);
  const toGive: readonly string[] = suit?.toGive ?? [];
  return !!suit && fields.every((field) => !toGive.includes(field));
}
