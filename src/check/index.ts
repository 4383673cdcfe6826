export { RULE_IDS } from "./ruleids.ts";
export type { RuleId } from "./ruleids.ts";
export type {
  Finding,
  Level,
  MarginTrack,
  Outing,
  ReachTrack,
  Score,
  SeparationTrack,
  Stretch,
  Subject,
  Track,
  Unit,
  Verdict,
} from "./verdict.ts";
