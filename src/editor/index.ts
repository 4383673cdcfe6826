export { axisScale } from "./axis.ts";
export { framing, panned, revealing, timeScale, zoomed } from "./scale.ts";
export type { TimeScale, TimeWindow, WindowLimits } from "./scale.ts";
export { metTicks, petTicks, utcTicks } from "./ticks.ts";
export type { Tick } from "./ticks.ts";
export { valueAt, valueNear } from "./course.ts";
export type { Course } from "./course.ts";
export { crewLaneBeside, laneAt, layLanes, REMOTE, remoteRowsOf } from "./lanes.ts";
export type { Lane, LaneSizes } from "./lanes.ts";
export { betweensOf, blocksOf, reliefTopS } from "./relief.ts";
export type { Between, Block, OutingCourse, OutingStretch, Reach, RestPause } from "./relief.ts";
export {
  awayPx,
  beyondHome,
  distanceTo,
  hit,
  homeY,
  innerY,
  LEAST_PX,
  outerY,
  rowSlabOf,
  slabOf,
} from "./shape.ts";
export type { LaneRelief, Slab } from "./shape.ts";
export { evaAt, proposed } from "./propose.ts";
export { NO_PLACE, placedAt, placeHindered } from "./replace.ts";
export type { Target } from "./propose.ts";
export { roundGridS, snapped, snapPoints } from "./snap.ts";
export type { Snapped, SnapPoint, StartBand } from "./snap.ts";
export { gestureStep, IDLE, targetUnder } from "./gesture.ts";
export type { Gesture, GestureAct, GestureDesk, GestureEvent, Modifiers, Point } from "./gesture.ts";
export { laneFor, selectedBy } from "./taken.ts";
export type { Grip, Taken } from "./taken.ts";
export { aimed } from "./aim.ts";
export { proposalOf } from "./proposal.ts";
export { fittingStarts, keyStep } from "./keys.ts";
export type { FittingStarts } from "./keys.ts";
export { blockBeside, readingOrder } from "./walk.ts";
export type { Direction } from "./walk.ts";
export { returnMassCourse } from "./cargo.ts";
export { movedTogether } from "./together.ts";
export type { Held } from "./together.ts";
export { MANNER_WORDS, otherManner, slid, slidBy, type Stuck } from "./slide.ts";
export type { Manner, WalkS } from "./slide.ts";
export { edgeUnder, LEAST_LENGTH_S, stretched, withLength } from "./stretch.ts";
export type { Edge, Stretched } from "./stretch.ts";
export { lassoed } from "./lasso.ts";
export type { Lasso } from "./lasso.ts";
export { evaPoints, lengthPoints } from "./snap.ts";
