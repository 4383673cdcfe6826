import type { GoIf, HomeIf, Limit, PrintedDay } from "../../answers/index.ts";
import { goIfs, homeIfs } from "../../check/index.ts";
import { type Eva, isLimitGiven, isSuitGiven, type Plan } from "../../plan/index.ts";
import { departuresOf } from "./leaving/asprinted.ts";

/** What is asked of gauges, and by when somebody is in; nothing of a suit of which nobody has given what it holds. */

/** HOME IF of the plan; of a suit with a stock that nobody has given there is none. */
export function homeIfsGiven(plan: Plan): HomeIf[] {
  return homeIfs(plan).map((one) => (isSuitGiven(plan, one) ? one : { ...one, leastPct: null }));
}

/** GO IF of the day as printed; of a suit with a stock that nobody has given there is none. */
export function goIfsGiven(plan: Plan, day: PrintedDay): GoIf[] {
  return goIfs(plan, departuresOf(day)).filter((one) => isSuitGiven(plan, one));
}

/**
 * `limit` of an EVA; null where what a suit worn on it holds, or the length of the stay, is nobody's: what that allows may be less, so a
 * limit that is known is none.
 */
export function limitGiven(plan: Plan, eva: Eva, limit: Limit): Limit | null {
  return isLimitGiven(plan, eva) ? limit : null;
}

/** What is said in place of a limit that is not given. */
export const NO_LIMIT = "unknown: a suit or the stay is not given";
