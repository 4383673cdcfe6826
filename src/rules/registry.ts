import { keysOf } from "../kernel/index.ts";
import { crewRules } from "./crew.ts";
import { evaRules } from "./evas.ts";
import { linkRules } from "./links.ts";
import { plannerRules } from "./planner.ts";
import type { FlightRule } from "./record.ts";
import { suitRules } from "./suits.ts";
import { taskRules } from "./tasks.ts";
import { walkingRules } from "./walking.ts";

const RECORDS = {
  ...suitRules,
  ...walkingRules,
  ...taskRules,
  ...linkRules,
  ...crewRules,
  ...evaRules,
  ...plannerRules,
};

export type RuleId = keyof typeof RECORDS;

/** What can stand against a task or a schedule by some flight rule. */
export type RuleCause = (typeof RECORDS)[RuleId]["causes"][number];

/** Every flight rule, in the order of reading. What is kept by rule elsewhere is a record of these ids, so that nothing is left out. */
export const FLIGHT_RULES: Readonly<Record<RuleId, FlightRule>> = RECORDS;

export const RULE_IDS: readonly RuleId[] = keysOf(RECORDS);

/** Steps by which a rule may be eased at most; 0 where it is not for bargaining. */
export function mostEased(rule: RuleId): number {
  return FLIGHT_RULES[rule].eases?.most ?? 0;
}
