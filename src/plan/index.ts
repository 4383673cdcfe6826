export { given, givenBetween, stillToGive } from "./given.ts";
export { isTouchdownKnown, missingForSky } from "./skyknown.ts";
export type { SkyFields } from "./skyknown.ts";
export { NEW_TASK } from "./newtask.ts";
export { at, withAt } from "./pathway.ts";
export { TO_GIVE } from "./togive.ts";
export { FORMAT, planSchema, VERSION } from "./plan.ts";
export type { Plan, PlanInput } from "./plan.ts";
export { migrated } from "./migrate.ts";
export { parse, parseText, LARGEST_TEXT } from "./parse.ts";
export type { Fault } from "./fault.ts";
export { duplicateKeys } from "./duplicatekeys.ts";
export { withHiddenShown } from "./hiddensigns.ts";
export { planJsonSchema } from "./jsonschema.ts";
export { USUAL, usualOf } from "./defaults.ts";
export type { Usual } from "./defaults.ts";
export { guideTo } from "./guide.ts";
export type { FieldGuide } from "./guide.ts";
export { applyEdit, editBetween, editSchema, invertEdit, isEmptyEdit } from "./edit.ts";
export type { Edit } from "./edit.ts";
export { fingerprint, shortFingerprint } from "./fingerprint.ts";
export { handedTo, signedValue, signoffState } from "./signoff.ts";
export type { About, Comment, Hand, Signoff } from "./said.ts";
export { sameFrame } from "./frame.ts";
export {
  applyPatch,
  composePatches,
  fitPatch,
  invertPatch,
  patchBetween,
  patchSchema,
} from "./patch/index.ts";
export type { Change, Clash, Merged, Patch, Renumbered } from "./patch/index.ts";
export { isSwitchedOff, leavesInstrument } from "./instrument.ts";
export { changesBetween, samePlacement, sameSchedule } from "./changes.ts";
export type { TaskChange } from "./changes.ts";
export { oneAfterOther, sharingSuits, suitIdOn, suitOn, suitsOf, suitsWorn } from "./wearing.ts";
export { splitAfterS, splitTask } from "./split.ts";
export { mergeTasks, otherPart } from "./merge.ts";
export type { KeepOut, Leg, Place, Stay } from "./site.ts";
export { MOST_POINTS } from "./ground.ts";
export type { PlanGround, PlanGroundInput } from "./ground.ts";
export { STOCK_FIELDS } from "./crew.ts";
export type { Consumable, Container, CrewMember, Equipment, Eva, Suit } from "./crew.ts";
export { allCautions, classOf, stepCrew } from "./step.ts";
export type { Blank, Caution, Step } from "./step.ts";
export { freshNumber, isTaskNumber, partNumber, taskNumbers } from "./tasknumber.ts";
export { oneMore } from "./repeat.ts";
export { bagNumbers } from "./bags.ts";
export type { Group } from "./group.ts";
export type { LagLink, Link, Task } from "./task.ts";
export type { Mishap, Remedy } from "./mishap.ts";
export { remediesAfter, remedyHost } from "./remedy.ts";
export { mishapsOf } from "./mishaps.ts";
export type { Odds } from "./odds.ts";
export type { Rules, RuleLevel } from "./rules.ts";
export { ruleSource } from "./rulesource.ts";
export type { GivesUp, Placement, Schedule } from "./schedule.ts";
export { isHeavySite } from "./siteload.ts";
