export { bare, digits, fixed, grouped, rounded, signed, ungrouped, unspaced } from "./number.ts";
export type { Side } from "./number.ts";
export {
  clock,
  clockToSecond,
  gridName,
  hours,
  inside,
  lasting,
  met,
  minuteFigure,
  minutes,
  noLaterThan,
  pet,
  shift,
  timeLeft,
} from "./time.ts";
export { unitNamed } from "./unitword.ts";
export {
  angle,
  bearing,
  heat,
  kmH,
  mass,
  metres,
  metresMore,
  percent,
  sizeWords,
  speed,
  stock,
  volume,
  watts,
} from "./amount.ts";
export { CONSUMABLE_WORDS } from "./consumable.ts";
export { cautionSentence } from "./caution.ts";
export { ACTING_WORDS, actingRules, CARRIES_ON_WORDS, cautionWords, crewSays } from "./crewwords.ts";
export { groupWords } from "./group.ts";
export { PAPER_HAS_WHAT_WAS_TESTED, untriedWords } from "./late.ts";
export { linkWords } from "./link.ts";
export { counted, listed } from "./list.ts";
export { noSpreadWords } from "./spread.ts";
export { unplayedWords } from "./unplayed.ts";
export { arePlaced, isPlaced, isToGive, leastWords, notGivenWords, unlessToGive } from "./togive.ts";
export { skyUnknownWords } from "./sky.ts";
export { rehearsalLosesWords } from "./rehearsed.ts";
export { clashWords, differenceWords, renumberedWords } from "./difference.ts";
export type { DifferenceLine } from "./difference.ts";
export { scheduleChanges } from "./taskchange.ts";
export type { WordedChange } from "./taskchange.ts";
export {
  briefly,
  crewName,
  evaName,
  findingWords,
  nameIn,
  numberedSentence,
  numberedTask,
  placeName,
  taskName,
  taskNumber,
} from "./names.ts";
export { aboutWords, remarkedAt, signoffWords } from "./remarks.ts";
export { cautionLine, CLASS_WORDS, doersOf, gravestFirst, stepLine } from "./step.ts";
export { clockText, phaseAt } from "./dial.ts";
export type { ClockKind, Dial, Phase } from "./dial.ts";
export { dayBeginsMs, touchdownMs, utcClock, utcDate, utcDay, utcStamp, utcYearDay } from "./utc.ts";
