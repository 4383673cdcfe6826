export { AT_ONCE } from "./departures.ts";
export type { Departures } from "./departures.ts";
export type { TooFarApart } from "./freedom.ts";
export { check, judgeFor, judgeOf } from "./judge.ts";
export type { Judge } from "./judge.ts";
export { ledgerOf } from "./ledger.ts";
export type { Ledger, LedgerLine } from "./ledger.ts";
export { ingressLimits, ingressLimitsByEva } from "./latestingress.ts";
export { limiterWords } from "./limits.ts";
export type { Limit, Limiter } from "./limits.ts";
export { overWords, recallOf } from "./turnback.ts";
export type { Recall, TurnBack } from "./turnback.ts";
export { compareScores, easedWords, subtract, worseWords } from "./comparison.ts";
export type { Shift, VerdictChange } from "./comparison.ts";
export { CALLED } from "./rules/reserves.ts";
export { pointsAt } from "./points.ts";
export { RULE_IDS } from "./ruleids.ts";
export type { RuleId } from "./ruleids.ts";
export { RULE_SENTENCES } from "./rulesentences.ts";
export { RULE_WORDS } from "./rulewords.ts";
export type {
  Finding,
  HeatTrack,
  Level,
  MarginTrack,
  Outing,
  Quantity,
  ReachTrack,
  Rest,
  Score,
  SeparationTrack,
  Stretch,
  Subject,
  Track,
  Unit,
  Verdict,
} from "./verdict.ts";
