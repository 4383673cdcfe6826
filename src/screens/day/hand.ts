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
import { refuse } from "../look.ts";
import { aimOf, show } from "./aiming.ts";
import { edgeRoll } from "./edgeroll.ts";
import { deskNow } from "./gesturedesk.ts";
import { beyondEdge } from "./ground.ts";
import { choose, nameOf, setDown } from "./setdown.ts";
import { spokenHand } from "./speech.ts";
import type { GestureSurface } from "./surface.ts";

/** What is in hand on the day line: the state of the gesture, and everything that its acts do to desk and look. */
export interface DayHand {
  now(): Gesture;
  /** Takes the gesture a step on, and does what it asks for. */
  step(event: GestureEvent): void;
  /** Nothing is in hand any more; what is shown on the desk is left to others. */
  letGo(): void;
  /** What is in hand goes back to where it was; nothing where nothing is. */
  takeBack(): void;
}

/** True while something is held, by the pointer or by keys. */
export function isHolding({ state }: Gesture): boolean {
  return state === "dragged" || state === "keyed";
}

/** How long a held task must rest before a listener is told what it costs, ms. */
const SPEAK_AFTER_MS = 350;

export function dayHand(surface: GestureSurface): DayHand {
  const { desk, look, ground, windows } = surface;
  let gesture: Gesture = IDLE;
  let speech: ReturnType<typeof setTimeout> | undefined;

  const follow = (): void => {
    const aim = aimOf(surface, gesture);
    if (!aim) return;
    show(surface, aim);
    if (gesture.state === "keyed") reveal(surface, aim.target);
    clearTimeout(speech);
    speech = setTimeout(() => {
      const words = spokenHand(desk.state.getState(), look.getState());
      if (words !== null) look.setState({ spoken: words });
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
  const grasp: Grasp = { follow, letGo, watchEdge: () => edge.watch() };
  return {
    now: () => gesture,
    letGo,
    step(event) {
      const next = gestureStep(gesture, event, deskNow(surface, gesture));
      gesture = next.gesture;
      const at = "at" in event ? event.at : { x: window.innerWidth / 2, y: window.innerHeight / 3 };
      carryOut(surface, grasp, next.act, at);
    },
    takeBack() {
      if (gesture.state === "dragged" || gesture.state === "keyed")
        carryOut(surface, grasp, { kind: "cancel", taken: gesture.taken }, { x: 0, y: 0 });
    },
  };
}

/** What acts do to the hand itself. */
interface Grasp {
  /** Shows where the gesture leads now. */
  follow(): void;
  letGo(): void;
  /** Moves the window where what is held rests at its edge. */
  watchEdge(): void;
}

/** Does what a step of the gesture asks for. */
function carryOut(surface: GestureSurface, grasp: Grasp, act: GestureAct, at: Point): void {
  const { desk, look } = surface;
  switch (act.kind) {
    case "click":
      choose(surface, act.grip);
      return;
    case "refuse":
      desk.select(act.taken.tasks);
      look.setState({ refused: { tasks: act.pinned, ...at } });
      refuse(look, "Pinned: press P to unpin it first.");
      return;
    case "start":
      desk.select(act.taken.tasks);
      look.setState({ refused: null, menu: null });
      desk.begin(nameOf(desk.state.getState().plan, act.taken), act.taken.tasks);
      grasp.follow();
      return;
    case "follow":
      grasp.follow();
      grasp.watchEdge();
      return;
    case "no start":
      refuse(look, noStartWords(surface));
      return;
    case "other manner":
      look.setState({ manner: otherManner(look.getState().manner) });
      grasp.follow();
      return;
    case "commit": {
      const { inHand } = look.getState();
      grasp.letGo();
      if (inHand) look.setState({ spoken: setDown(surface, act.taken, inHand) });
      else desk.cancel();
      return;
    }
    case "cancel":
      desk.cancel();
      grasp.letGo();
      look.setState({ spoken: "Taken back." });
      return;
    case "none":
  }
}

/** Why a jump by keys finds no start. */
function noStartWords({ desk }: GestureSurface): string {
  return desk.state.getState().fitBands === null
    ? "Starts that fit are being worked out."
    : "No further start that fits on this lane.";
}

function reveal({ windows }: GestureSurface, target: Target): void {
  if (target.at === "line") windows.reveal({ startS: target.startS, endS: target.startS + 600 });
}
