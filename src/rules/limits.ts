import type { NumberGroup } from "./numbers.ts";
import { FLIGHT_RULES, RULE_IDS, type RuleId } from "./registry.ts";

/** The flight rules that are held to this number of the plan's rules; the other numbers of a group only say how it is reckoned. */
export function rulesLimitedBy(group: NumberGroup, key: string): readonly RuleId[] {
  return RULE_IDS.filter((rule) => {
    const { numbers } = FLIGHT_RULES[rule];
    return numbers?.group === group && (numbers.limit ?? numbers.keys[0]) === key;
  });
}
