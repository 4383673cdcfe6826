import {
  type Gesture,
  type GestureAct,
  type GestureEvent,
  gestureStep,
  type Grip,
  IDLE,
  type Modifiers,
  otherManner,
  type Point,
  type Target,
} from "../../editor/index.ts";
import { betterDay, type Desk } from "../../session/index.ts";
import { type Look, refuse } from "../look.ts";
import { aimOf, show } from "./aiming.ts";
import { edgeRoll } from "./edgeroll.ts";
import { deskNow, whereTaken } from "./gesturedesk.ts";
import { beyondEdge } from "./ground.ts";
import { CLICK_PX, TOUCH_CLICK_PX } from "./line/sizes.ts";
import { choose, nameOf, setDown } from "./setdown.ts";
import { spokenCost, stuckWords } from "./speech.ts";
import type { GestureSurface } from "./surface.ts";
import type { Windowing } from "./windowing.ts";

/**
 * The gesture on the day line at work: events of pointer and keys go through `gestureStep`, and what it asks for is done on the desk, which judges one whole
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

/** How long a held task must rest before a listener is told what it costs, ms. */
const SPEAK_AFTER_MS = 350;

export function dayGesture(surface: GestureSurface): DayGesture {
  const { desk, look, ground, windows } = surface;
  let gesture: Gesture = IDLE;
  let speech: ReturnType<typeof setTimeout> | undefined;

  const say = (spoken: string): void => look.setState({ spoken });

  const follow = (): void => {
    const aim = aimOf(surface, gesture);
    if (!aim) return;
    show(surface, aim);
    if (gesture.state === "keyed") reveal(windows, aim.target);
    clearTimeout(speech);
    speech = setTimeout(() => {
      const words = costWords(desk, look);
      if (words !== null) say(words);
    }, SPEAK_AFTER_MS);
  };

  const edge = edgeRoll(
    () => (gesture.state === "dragged" ? beyondEdge(ground(), gesture.now) : 0),
    (share) => {
      windows.panShare(share);
      follow();
    },
  );

  const letGo = (): void => {
    clearTimeout(speech);
    edge.stop();
    gesture = IDLE;
    look.setState({ inHand: null });
  };

  const act = (what: GestureAct, at: Point): void => {
    switch (what.kind) {
      case "click":
        choose(surface, what.grip);
        return;
      case "refuse":
        desk.select(what.taken.tasks);
        look.setState({ refused: { tasks: what.pinned, ...at } });
        refuse(look, "Pinned: press P to unpin it first.");
        return;
      case "start":
        desk.select(what.taken.tasks);
        look.setState({ refused: null, menu: null });
        desk.begin(nameOf(desk.state.getState().plan, what.taken), what.taken.tasks);
        follow();
        return;
      case "follow":
        follow();
        edge.watch();
        return;
      case "no start": {
        const known = desk.state.getState().fitBands !== null;
        refuse(
          look,
          known ? "No further start that fits on this lane." : "Starts that fit are being worked out.",
        );
        return;
      }
      case "other manner":
        look.setState({ manner: otherManner(look.getState().manner) });
        follow();
        return;
      case "commit": {
        const { inHand } = look.getState();
        letGo();
        if (inHand) say(setDown(surface, what.taken, inHand));
        else desk.cancel();
        return;
      }
      case "cancel":
        desk.cancel();
        letGo();
        say("Taken back.");
        return;
      case "none":
    }
  };

  const step = (event: GestureEvent): void => {
    const next = gestureStep(gesture, event, deskNow(surface, gesture));
    gesture = next.gesture;
    act(next.act, "at" in event ? event.at : { x: window.innerWidth / 2, y: window.innerHeight / 3 });
  };

  const onMove = (event: PointerEvent): void => {
    if (gesture.state === "idle") return;
    const at = { x: event.clientX, y: event.clientY };
    step({ type: "move", pointer: event.pointerId, at, modifiers: modifiersOf(event) });
  };
  const onUp = (event: PointerEvent): void => step({ type: "release", pointer: event.pointerId });
  const onLose = (event: PointerEvent): void => step({ type: "lose", pointer: event.pointerId });
  /** The keys that change the manner or hold snapping off act at once, without a move of the pointer. */
  const onModifier = (event: KeyboardEvent): void => {
    if (gesture.state !== "dragged" || (event.key !== "Shift" && event.key !== "Alt")) return;
    step({ type: "modify", modifiers: modifiersOf(event) });
    event.preventDefault();
  };
  /** The better day that the packer shows is not the plan's: what is taken from it would be taken from nowhere. */
  const packing = (): boolean => {
    const shown = betterDay(desk.state.getState()) !== null;
    if (shown)
      refuse(look, "The packer is at work: Enter takes this day, Escape stops, then it can be moved.");
    return shown;
  };
  const active = (): boolean => gesture.state === "dragged" || gesture.state === "keyed";

  return {
    active,
    forget: () => step({ type: "forget" }),
    press(event, grip) {
      if (gesture.state === "keyed" || packing()) return;
      look.setState({ refused: null, menu: null });
      const at = { x: event.clientX, y: event.clientY };
      const slackPx = event.pointerType === "touch" ? TOUCH_CLICK_PX : CLICK_PX;
      step({ type: "press", pointer: event.pointerId, grip, at, slackPx });
    },
    take(task, lane, eva) {
      if (gesture.state !== "idle" || packing()) return false;
      const { target, fromLane } = whereTaken(surface, task, lane);
      const grip = { task, lane: fromLane, offsetS: 0, ...(eva === undefined ? {} : { eva }) };
      step({ type: "take", grip, target });
      return active();
    },
    key(event) {
      const { key, shiftKey: shift } = event;
      if (gesture.state === "dragged" && key === "Escape") {
        step({ type: "key", key, shift });
        return true;
      }
      if (gesture.state !== "keyed" || !ground()) return false;
      // While something is in hand no other command may change the plan under it, and Tab would leave it in the air.
      if (event.metaKey || event.ctrlKey || key === "F5") return false;
      step({ type: "key", key, shift });
      return true;
    },
    listen() {
      window.addEventListener("pointermove", onMove);
      window.addEventListener("pointerup", onUp);
      window.addEventListener("pointercancel", onLose);
      window.addEventListener("keydown", onModifier);
      window.addEventListener("keyup", onModifier);
      // Undo, or a pack that comes in, ends the gesture on the desk: nothing is in hand then.
      const stop = desk.state.subscribe((now, before) => {
        if (before.preview && !now.preview && active()) letGo();
      });
      return () => {
        stop();
        if (gesture.state === "dragged" || gesture.state === "keyed")
          act({ kind: "cancel", taken: gesture.taken }, { x: 0, y: 0 });
        window.removeEventListener("pointermove", onMove);
        window.removeEventListener("pointerup", onUp);
        window.removeEventListener("pointercancel", onLose);
        window.removeEventListener("keydown", onModifier);
        window.removeEventListener("keyup", onModifier);
      };
    },
  };
}

/** What the present move costs, for listeners; null while nothing is shown. */
function costWords(desk: Desk, look: Look): string | null {
  const { preview, plan } = desk.state.getState();
  const { inHand } = look.getState();
  if (!preview || !inHand) return null;
  const cannot = stuckWords(plan, inHand.stuck);
  const cost = spokenCost(plan, preview, inHand.target, inHand.slid.size);
  return cannot === null ? cost : `${cost} ${cannot}`;
}

function reveal(windows: Windowing, target: Target): void {
  if (target.at === "line") windows.reveal({ startS: target.startS, endS: target.startS + 600 });
}

function modifiersOf(event: PointerEvent | KeyboardEvent): Modifiers {
  return { free: event.altKey, other: event.shiftKey };
}
