import {
  type Gesture,
  type GestureAct,
  type GestureEvent,
  gestureStep,
  IDLE,
  otherManner,
  type Point,
  type Target,
} from "../../editor/index.ts";
import { refuse } from "../viewstate.ts";
import { aimOf, show } from "./aiming.ts";
import { edgeRoll } from "./edgeroll.ts";
import { gestureView } from "./gestureview.ts";
import { beyondEdge } from "./ground.ts";
import { choose, nameOf, commit } from "./setdown.ts";
import { spokenHand } from "./speech.ts";
import type { GestureSurface } from "./surface.ts";

/** What is in hand on the day line: the state of the gesture, and everything that its acts do to desk and look. */
export interface DayHand {
  now(): Gesture;
  /** Takes the gesture a step on, and does what it asks for. */
  step(event: GestureEvent): void;
  /** Nothing is in hand any more; what is shown in the session is left to others. */
  release(): void;
  /** What is in hand goes back to where it was; nothing where nothing is. */
  cancel(): void;
}

/** True while something is in hand, by the pointer or by keys. */
export function isInHand({ state }: Gesture): boolean {
  return state === "dragged" || state === "keyed";
}

/** How long a task in hand must rest before a listener is told what it costs, ms. */
const SPEAK_AFTER_MS = 350;

export function dayHand(surface: GestureSurface): DayHand {
  const { session, view, ground, windows } = surface;
  let gesture: Gesture = IDLE;
  let speech: ReturnType<typeof setTimeout> | undefined;

  const follow = (): void => {
    const aim = aimOf(surface, gesture);
    if (!aim) return;
    show(surface, aim);
    if (gesture.state === "keyed") reveal(surface, aim.target);
    clearTimeout(speech);
    speech = setTimeout(() => {
      const words = spokenHand(session.state.getState(), view.getState());
      if (words !== null) view.setState({ spoken: words });
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
    view.setState({ inHand: null });
  };
  const effects: HandEffects = { follow, letGo, watchEdge: () => edge.watch() };
  return {
    now: () => gesture,
    release: letGo,
    step(event) {
      const next = gestureStep(gesture, event, gestureView(surface, gesture));
      gesture = next.gesture;
      const at = "at" in event ? event.at : { x: window.innerWidth / 2, y: window.innerHeight / 3 };
      carryOut(surface, effects, next.act, at);
    },
    cancel() {
      if (gesture.state === "dragged" || gesture.state === "keyed")
        carryOut(surface, effects, { kind: "cancel", taken: gesture.taken }, { x: 0, y: 0 });
    },
  };
}

/** What acts do to the hand itself. */
interface HandEffects {
  /** Shows where the gesture leads now. */
  follow(): void;
  letGo(): void;
  /** Moves the window where what is in hand rests at its edge. */
  watchEdge(): void;
}

/** Does what a step of the gesture asks for. */
function carryOut(surface: GestureSurface, effects: HandEffects, act: GestureAct, at: Point): void {
  const { session, view } = surface;
  switch (act.kind) {
    case "click":
      choose(surface, act.grip);
      return;
    case "refuse":
      session.select(act.taken.tasks);
      view.setState({ refused: { tasks: act.pinned, ...at } });
      refuse(view, "Pinned: press P to unpin it first.");
      return;
    case "start":
      session.select(act.taken.tasks);
      // What was said of the last key or click is not of what is in hand now.
      view.setState({ refused: null, menu: null, hint: null });
      session.begin(nameOf(session.state.getState().plan, act.taken), act.taken.tasks);
      effects.follow();
      return;
    case "follow":
      effects.follow();
      effects.watchEdge();
      return;
    case "no start":
      refuse(view, noStartWords(surface));
      return;
    case "other manner":
      view.setState({ manner: otherManner(view.getState().manner) });
      effects.follow();
      return;
    case "commit": {
      const { inHand } = view.getState();
      effects.letGo();
      if (inHand) view.setState({ spoken: commit(surface, act.taken, inHand) });
      else session.cancel();
      return;
    }
    case "cancel":
      session.cancel();
      effects.letGo();
      view.setState({ spoken: "Taken back." });
      return;
    case "none":
  }
}

/** Why a jump by keys finds no start. */
function noStartWords({ session }: GestureSurface): string {
  return session.state.getState().fitBands === null
    ? "Starts that fit are being worked out."
    : "No further start that fits on this lane.";
}

function reveal({ windows }: GestureSurface, target: Target): void {
  if (target.at === "line") windows.reveal({ startS: target.startS, endS: target.startS + 600 });
}
