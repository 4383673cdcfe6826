export type { Departures } from "./departures.ts";
export { check, judgeFor, judgeOf } from "./judge.ts";
export { ledgerOf } from "./ledger.ts";
export type { Ledger, LedgerLine } from "./ledger.ts";
export { ingressLimitsByEva } from "./latestingress.ts";
export { limiterWords, recallLimiterWords } from "./limits.ts";
export { recallWords } from "./recallwords.ts";
export { overWords, recallOf } from "./turnback.ts";
export {
  compareScores,
  easedWords,
  newBreaches,
  scoreGain,
  spareWords,
  subtract,
  worseWords,
} from "./comparison.ts";
export { pointsAt } from "./points.ts";
export { goIfs, homeIfs } from "./homeif.ts";
export { loadThousandths } from "./amounts.ts";
export { sunOver, waysHome } from "./bearings.ts";
export type { WayHome } from "./bearings.ts";
export { countedWorths } from "./groups.ts";
