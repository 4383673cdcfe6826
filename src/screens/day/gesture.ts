import { betterDay } from "../../session/index.ts";
import type { GestureEvent, Grip, Modifiers } from "../../editor/index.ts";
import { refuse } from "../viewstate.ts";
import { whereTaken } from "./gestureview.ts";
import { type DayHand, dayHand, isInHand } from "./hand.ts";
import { CLICK_PX, TOUCH_CLICK_PX } from "./line/sizes.ts";
import type { GestureSurface } from "./surface.ts";

/**
 * The gesture on the day line at work: events of pointer and keys go through `gestureStep`, and what it asks for is done in the session, which judges one whole
 * proposal from the begin each time. What is in hand is a task, all that are selected, an EVA, or one end of a task.
 */
export interface DayGesture {
  /** A pointer went down on a task of the line or the bench, on an end of one, or on an EVA's bar. */
  press(event: PointerEvent, grip: Grip): void;
  /** Takes hold by keys, where the task is, with all that are selected. False when something is in hand or pinned. */
  take(task: string, lane: string | null, eva?: string): boolean;
  /** Lets a press that is no drag yet go without a click, for a menu that opens under it. */
  forget(): void;
  /** A key while something is in hand; true when it was meant for that. */
  key(event: KeyboardEvent): boolean;
  readonly active: () => boolean;
  /** Follows pointers until the answer is called; what is in hand then is taken back. */
  listen(): () => void;
}

export function dayGesture(surface: GestureSurface): DayGesture {
  const hand = dayHand(surface);
  const active = (): boolean => isInHand(hand.now());
  return {
    active,
    forget: () => hand.step({ type: "forget" }),
    press(event, grip) {
      if (hand.now().state === "keyed" || isPacking(surface)) return;
      surface.view.setState({ refused: null, menu: null });
      const at = { x: event.clientX, y: event.clientY };
      const slackPx = event.pointerType === "touch" ? TOUCH_CLICK_PX : CLICK_PX;
      hand.step({ type: "press", pointer: event.pointerId, grip, at, slackPx });
    },
    take(task, lane, eva) {
      if (hand.now().state !== "idle" || isPacking(surface)) return false;
      const { target, fromLane } = whereTaken(surface, task, lane);
      const grip = { task, lane: fromLane, offsetS: 0, ...(eva === undefined ? {} : { eva }) };
      hand.step({ type: "take", grip, target });
      return active();
    },
    key(event) {
      if (!isForHand(surface, hand, event)) return false;
      hand.step({ type: "key", key: event.key, shift: event.shiftKey });
      return true;
    },
    listen: () => follows(surface, hand),
  };
}

/** The better day that the packer shows is not the plan's: what is taken from it would be taken from nowhere. */
function isPacking({ session, view }: GestureSurface): boolean {
  const shown = betterDay(session.state.getState()) !== null;
  if (shown) refuse(view, "The packer is at work: Enter takes this day, Escape stops, then it can be moved.");
  return shown;
}

/** Whether a key is meant for what is in hand. */
function isForHand({ ground }: GestureSurface, hand: DayHand, event: KeyboardEvent): boolean {
  const { state } = hand.now();
  if (state === "dragged") return event.key === "Escape";
  if (state !== "keyed" || !ground()) return false;
  // While something is in hand no other command may change the plan under it, and Tab would leave it in the air.
  return !(event.metaKey || event.ctrlKey || event.key === "F5");
}

/** Follows pointers, wherever they go, and lets go with the session; the answer ends it, and takes back what is in hand then. */
function follows({ session }: GestureSurface, hand: DayHand): () => void {
  const listening = new AbortController();
  const on = <Type extends keyof WindowEventMap>(
    type: Type,
    event: (event: WindowEventMap[Type]) => GestureEvent | null,
  ): void =>
    window.addEventListener(
      type,
      (happened) => {
        const step = event(happened);
        if (step) hand.step(step);
      },
      { signal: listening.signal },
    );
  on("pointermove", (event) => {
    if (hand.now().state === "idle") return null;
    const at = { x: event.clientX, y: event.clientY };
    return { type: "move", pointer: event.pointerId, at, modifiers: modifiersOf(event) };
  });
  on("pointerup", ({ pointerId }) => ({ type: "release", pointer: pointerId }));
  on("pointercancel", ({ pointerId }) => ({ type: "lose", pointer: pointerId }));
  /** The keys that change the manner or hold snapping off act at once, without a move of the pointer. */
  const modify = (event: KeyboardEvent): GestureEvent | null => {
    if (hand.now().state !== "dragged" || (event.key !== "Shift" && event.key !== "Alt")) return null;
    event.preventDefault();
    return { type: "modify", modifiers: modifiersOf(event) };
  };
  on("keydown", modify);
  on("keyup", modify);
  // Undo, or a pack that comes in, ends the gesture in the session: nothing is in hand then.
  const stop = session.state.subscribe((now, before) => {
    if (before.preview && !now.preview && isInHand(hand.now())) hand.release();
  });
  return () => {
    stop();
    listening.abort();
    hand.cancel();
  };
}

function modifiersOf(event: PointerEvent | KeyboardEvent): Modifiers {
  return { free: event.altKey, other: event.shiftKey };
}
