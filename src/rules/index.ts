export { RULE_IDS } from "./ids.ts";
export type { RuleId } from "./ids.ts";
