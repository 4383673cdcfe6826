export { createSession } from "./session.ts";
export type { Session } from "./session.ts";
export { systemClock, systemId } from "./ports.ts";
export type { JudgeFor } from "./ports.ts";
export type { Card, KeptState, StateKind } from "./shelf/records.ts";
export type { Picture } from "./shelf/picture.ts";
export { STATE_ROOM } from "./shelf/room.ts";
export { browserHandles } from "./shelf/filehandle.ts";
export type { QuarantinedPlan } from "./shelf/quarantine.ts";
export type { Which } from "./shelf/shelf.ts";
export type { MergeOffer } from "./shelf/merging.ts";
export { wordsOf } from "./files.ts";
export type { GivenDay } from "./fromwhat.ts";
export { blankPlan } from "./blank.ts";
export { stepName, unpinned } from "./placing.ts";
export { type Command, keysOf, nameOf } from "./registry.ts";
export type { PinPart } from "./placing.ts";
export { removalOf } from "./removal.ts";
export type { Removable, Removal } from "./removal.ts";
export {
  isBenchCurrent,
  benchTasks,
  findingsOfTask,
  currentPack,
  placementsByTask,
  redoName,
  betterDay,
  scoreChange,
  shownPlan,
  shownSchedule,
  shownVerdict,
  shownTasks,
  undoName,
} from "./selectors.ts";
export { isOnGrid } from "./sessionwork.ts";
export { printedIsStale } from "./printing.ts";
export { chanceChange, chancesAtRest, chancesNow, chancesStand, MANY_DAYS } from "./chances.ts";
export { curveIsDue, isCurveCurrent } from "./curve.ts";
export { ACTING_WORDS, actingRules, CARRIES_ON_WORDS, cautionWords } from "../words/index.ts";
export { oddsAreDue, oddsAreStale, placedOn, PRESENT, lateTableIsStale } from "./odds.ts";
export { fromChance, fromMargin, fromTime } from "./oddsfrom.ts";
export type { VariantDay } from "./variants.ts";
export { isMendLast, mendOutcome } from "./running.ts";
export { demandAndSupply } from "./demand.ts";
export { benchSays, whyIsStale } from "./why.ts";
export type { WhyQuestion, OddsChoice, OddsWork, PrintedWork, LateTableWork } from "./answers.ts";
export type { SessionState, Preview, Run } from "./state.ts";
export type { HeightAnswers, HeightQuestion, HeightSource } from "../exchange/heightgrid/index.ts";
export { withPlaceAt } from "./site.ts";
export type { SiteFile, SiteWork, Taken } from "./site.ts";

// What the judge says in words, which screens see through the session only.
export {
  easedWords,
  newBreaches,
  overWords,
  recallLimiterWords,
  recallWords,
  spareWords,
  subtract,
  worseWords,
} from "../check/index.ts";
export type { PackOptions } from "../engine/calls.ts";
export type { Leaves } from "./leaving.ts";
export { isOver } from "./rehearsalstate.ts";
export type { Proposal, Rehearsed, RehearsalState } from "./rehearsalstate.ts";
export type { CallOut, RehearsalWork } from "./rehearsing.ts";
export type { Debrief, DebriefRow, ProjectedPlacement } from "../rehearsal/index.ts";
export { callWords, isLost } from "../rehearsal/index.ts";
export { tabbedRows } from "../exchange/lists/delimited.ts";
export { debriefCsv } from "../exchange/debriefcsv.ts";
