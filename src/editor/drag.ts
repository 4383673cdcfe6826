import type { Target } from "./propose.ts";

/**
 * The drag as a state machine over a snapshot: where the pointer went down, and where it is now. What is held follows
 * from these two alone, so the path between does not matter and nothing adds up. Escape and a lost pointer take the
 * gesture back; release sets it down.
 */

/** What was under the pointer when it went down. */
export interface Grip {
  readonly task: string;
  /** The lane it was taken by; null from the bench. */
  readonly lane: string | null;
  /** Seconds from the task's start to the pointer; from the end in hand when it is an edge. */
  readonly offsetS: number;
  /** The end it was taken by, to make it longer or shorter. */
  readonly edge?: "start" | "end";
  /** The EVA, when all of it was taken by its bar. */
  readonly eva?: string;
  /** Pressed with the key that adds to the selection. */
  readonly more?: boolean;
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

export type Drag =
  | { readonly state: "idle" }
  /** Down, but not far enough to be a drag: on release it is a click. */
  | { readonly state: "pressed"; readonly pointer: number; readonly grip: Grip; readonly from: Point }
  | { readonly state: "held"; readonly pointer: number; readonly grip: Grip; readonly now: Point };

export type DragEvent =
  | { readonly type: "press"; readonly pointer: number; readonly grip: Grip; readonly at: Point }
  | { readonly type: "move"; readonly pointer: number; readonly at: Point }
  | { readonly type: "release"; readonly pointer: number }
  | { readonly type: "lose"; readonly pointer: number }
  | { readonly type: "escape" };

/** What the step asks for: take hold, follow, set down, take back, or treat as a click. */
export type DragAct = "none" | "begin" | "follow" | "set down" | "take back" | "click";

export interface DragStep {
  readonly drag: Drag;
  readonly act: DragAct;
}

export const IDLE: Drag = { state: "idle" };

/** The next state and what to do. Only the pointer that pressed counts; `slackPx` is what a click may wander. */
export function dragStep(drag: Drag, event: DragEvent, slackPx: number): DragStep {
  const stay: DragStep = { drag, act: "none" };
  if (event.type === "press") {
    if (drag.state !== "idle") return stay;
    return {
      drag: { state: "pressed", pointer: event.pointer, grip: event.grip, from: event.at },
      act: "none",
    };
  }
  if (drag.state === "idle") return stay;
  if (event.type === "escape") return { drag: IDLE, act: drag.state === "held" ? "take back" : "none" };
  if (event.pointer !== drag.pointer) return stay;
  switch (event.type) {
    case "release":
      return { drag: IDLE, act: drag.state === "held" ? "set down" : "click" };
    case "lose":
      return { drag: IDLE, act: drag.state === "held" ? "take back" : "none" };
    case "move": {
      if (drag.state === "held") return { drag: { ...drag, now: event.at }, act: "follow" };
      const far = Math.hypot(event.at.x - drag.from.x, event.at.y - drag.from.y);
      if (far <= slackPx) return stay;
      return {
        drag: { state: "held", pointer: drag.pointer, grip: drag.grip, now: event.at },
        act: "begin",
      };
    }
  }
}

/** Reads the ground under the pointer: the time there, and the lane or the bench. */
export interface GroundUnder {
  readonly atS: number;
  /** Lane under the pointer; null over the bench. */
  readonly lane: string | null;
}

/** Where the held task would be with the pointer over `ground`, before snapping. */
export function targetUnder(grip: Grip, ground: GroundUnder): Target {
  if (ground.lane === null) return { at: "bench" };
  return { at: "line", lane: ground.lane, startS: ground.atS - grip.offsetS };
}
