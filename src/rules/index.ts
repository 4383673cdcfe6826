export { RULE_NUMBERS } from "./numbers.ts";
export type { NumberGroup, RuleNumber } from "./numbers.ts";
export { rulesLimitedBy } from "./limits.ts";
export { givenNumbers } from "./given.ts";
export { FLIGHT_RULES, mostEased, RULE_IDS } from "./registry.ts";
export { ruleInWords } from "./packer.ts";
export type { PackerRule } from "./packer.ts";
export type { RuleCause, RuleId } from "./registry.ts";
export type { FlightRule, Sense, Unit } from "./record.ts";
