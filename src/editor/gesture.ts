import type { Plan } from "../plan/index.ts";
import { type FittingStarts, keyStep } from "./keys.ts";
import type { Lane } from "./lanes.ts";
import type { Target } from "./propose.ts";
import { type Grip, pinnedIn, type Taken, takenBy } from "./taken.ts";

/**
 * The gesture on the day line as a state machine over a snapshot, for pointer and keys: never do both have hold of something. What the pointer has in hand follows from
 * where it went down and where it is now alone, so the path between does not matter and nothing adds up. Escape and a
 * lost pointer take the gesture back; release and Enter commit it.
 */
export type Gesture =
  | { readonly state: "idle" }
  /** Down, but not far enough to be a drag: on release it is a click. */
  | {
      readonly state: "pressed";
      readonly pointer: number;
      readonly grip: Grip;
      readonly from: Point;
      /** How far a click may wander, pixels. */
      readonly slackPx: number;
    }
  | {
      readonly state: "dragged";
      readonly pointer: number;
      readonly grip: Grip;
      readonly taken: Taken;
      readonly now: Point;
      readonly modifiers: Modifiers;
    }
  | { readonly state: "keyed"; readonly taken: Taken; readonly target: Target };

/** A point of the page, pixels. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Keys that are down beside the pointer. */
export interface Modifiers {
  /** No snapping but to whole seconds. */
  readonly free: boolean;
  /** Others do the opposite of what is chosen. */
  readonly other: boolean;
}

export type GestureEvent =
  | {
      readonly type: "press";
      readonly pointer: number;
      readonly grip: Grip;
      readonly at: Point;
      readonly slackPx: number;
    }
  | { readonly type: "move"; readonly pointer: number; readonly at: Point; readonly modifiers: Modifiers }
  | { readonly type: "modify"; readonly modifiers: Modifiers }
  | { readonly type: "release"; readonly pointer: number }
  | { readonly type: "lose"; readonly pointer: number }
  /** A menu opens under a press that is no drag yet. */
  | { readonly type: "forget" }
  /** Taken by keys, lying at `target` first. */
  | { readonly type: "take"; readonly grip: Grip; readonly target: Target }
  | { readonly type: "key"; readonly key: string; readonly shift: boolean };

/** What a step asks for. */
export type GestureAct =
  | { readonly kind: "none" }
  | { readonly kind: "click"; readonly grip: Grip }
  /** Nothing is in hand, since these tasks are pinned. */
  | { readonly kind: "refuse"; readonly taken: Taken; readonly pinned: readonly string[] }
  | { readonly kind: "start"; readonly taken: Taken }
  /** The target is another one. */
  | { readonly kind: "follow" }
  /** A jump by keys that finds no start. */
  | { readonly kind: "no start" }
  /** Others are to do the opposite from now on. */
  | { readonly kind: "other manner" }
  | { readonly kind: "commit" | "cancel"; readonly taken: Taken };

export interface GestureStep {
  readonly gesture: Gesture;
  readonly act: GestureAct;
}

/** What a step sees. */
export interface GestureView {
  readonly plan: Plan;
  readonly selection: readonly string[];
  readonly lanes: readonly Lane[];
  readonly fitting: FittingStarts;
  /** Where a task comes to lie by keys when it leaves the bench. */
  readonly lineStart: () => { readonly lane: string; readonly startS: number };
}

export const IDLE: Gesture = { state: "idle" };
const NONE: GestureAct = { kind: "none" };
const JUMPS: readonly string[] = ["PageUp", "PageDown", "Home", "End"];

/** The next state and what to do. Only the pointer that pressed counts. */
export function gestureStep(gesture: Gesture, event: GestureEvent, seen: GestureView): GestureStep {
  const stay: GestureStep = { gesture, act: NONE };
  switch (gesture.state) {
    case "idle":
      return fromIdle(event, seen);
    case "pressed":
      if (event.type === "forget") return { gesture: IDLE, act: NONE };
      return "pointer" in event && event.pointer === gesture.pointer
        ? fromPressed(gesture, event, seen)
        : stay;
    case "dragged":
      return fromDragged(gesture, event);
    case "keyed":
      return event.type === "key" ? byKey(gesture, event, seen) : stay;
  }
}

function fromIdle(event: GestureEvent, seen: GestureView): GestureStep {
  if (event.type === "press") {
    const { pointer, grip, at, slackPx } = event;
    return { gesture: { state: "pressed", pointer, grip, from: at, slackPx }, act: NONE };
  }
  if (event.type !== "take") return { gesture: IDLE, act: NONE };
  return taking(seen, event.grip, (taken) => ({ state: "keyed", taken, target: event.target }));
}

function fromPressed(
  pressed: Extract<Gesture, { state: "pressed" }>,
  event: Extract<GestureEvent, { pointer: number }>,
  seen: GestureView,
): GestureStep {
  const { pointer, grip, from, slackPx } = pressed;
  switch (event.type) {
    case "release":
      return { gesture: IDLE, act: { kind: "click", grip } };
    case "lose":
      return { gesture: IDLE, act: NONE };
    case "press":
      return { gesture: pressed, act: NONE };
    case "move": {
      const { at, modifiers } = event;
      if (Math.hypot(at.x - from.x, at.y - from.y) <= slackPx) return { gesture: pressed, act: NONE };
      return taking(seen, grip, (taken) => ({ state: "dragged", pointer, grip, taken, now: at, modifiers }));
    }
  }
}

function fromDragged(dragged: Extract<Gesture, { state: "dragged" }>, event: GestureEvent): GestureStep {
  const stay: GestureStep = { gesture: dragged, act: NONE };
  if (event.type === "key") return event.key === "Escape" ? ended("cancel", dragged.taken) : stay;
  if (event.type === "modify")
    return { gesture: { ...dragged, modifiers: event.modifiers }, act: { kind: "follow" } };
  if (!("pointer" in event) || event.pointer !== dragged.pointer) return stay;
  switch (event.type) {
    case "release":
      return ended("commit", dragged.taken);
    case "lose":
      return ended("cancel", dragged.taken);
    case "press":
      return stay;
    case "move": {
      const { at: now, modifiers } = event;
      return { gesture: { ...dragged, now, modifiers }, act: { kind: "follow" } };
    }
  }
}

/** Takes hold, unless a pin forbids it. */
function taking(seen: GestureView, grip: Grip, gestureOf: (taken: Taken) => Gesture): GestureStep {
  const taken = takenBy(seen.plan, seen.selection, grip);
  const pinned = pinnedIn(seen.plan, taken);
  return pinned.length > 0
    ? { gesture: IDLE, act: { kind: "refuse", taken, pinned } }
    : { gesture: gestureOf(taken), act: { kind: "start", taken } };
}

function byKey(
  keyed: Extract<Gesture, { state: "keyed" }>,
  event: Extract<GestureEvent, { type: "key" }>,
  seen: GestureView,
): GestureStep {
  const { taken, target } = keyed;
  if (event.key.toLowerCase() === "o") return { gesture: keyed, act: { kind: "other manner" } };
  const step = keyStep(target, event, seen.lanes, seen.fitting, seen.lineStart(), seen.plan.rules.startGridS);
  switch (step.act) {
    case "commit":
    case "cancel":
      return ended(step.act, taken);
    case "none":
      return { gesture: keyed, act: JUMPS.includes(event.key) ? { kind: "no start" } : NONE };
    case "move": {
      // An EVA stays with its crew and off the bench.
      const astray = taken.eva !== null && laneOf(step.target) !== laneOf(target);
      return astray
        ? { gesture: keyed, act: NONE }
        : { gesture: { ...keyed, target: step.target }, act: { kind: "follow" } };
    }
  }
}

function ended(kind: "commit" | "cancel", taken: Taken): GestureStep {
  return { gesture: IDLE, act: { kind, taken } };
}

function laneOf(target: Target): string | null {
  return target.at === "line" ? target.lane : null;
}

/** The ground under the pointer: the time there, and the lane; null over the bench. */
export interface GroundUnder {
  readonly atS: number;
  readonly lane: string | null;
}

/** Where the task in hand would be with the pointer over `ground`, before snapping. */
export function targetUnder(grip: Grip, ground: GroundUnder): Target {
  if (ground.lane === null) return { at: "bench" };
  return { at: "line", lane: ground.lane, startS: ground.atS - grip.offsetS };
}
