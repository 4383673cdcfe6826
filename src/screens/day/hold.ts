import {
  clicked,
  type Drag,
  type DragAct,
  type DragEvent,
  dragStep,
  fittingStarts,
  type Grip,
  IDLE,
  type KeyHold,
  keyStep,
  type Manner,
  REMOTE,
  type Snapped,
  type Target,
  targetUnder,
  type WalkS,
} from "../../editor/index.ts";
import { gridTo } from "../../kernel/index.ts";
import type { Plan } from "../../plan/index.ts";
import type { Desk } from "../../session/index.ts";
import { CLICK_PX, EDGE_PX, TOUCH_CLICK_PX } from "./line/sizes.ts";
import type { Look } from "../look.ts";
import { edgeRoll } from "./edgeroll.ts";
import { type Grasp, graspOf, laneFor, offer, pinnedAmong, snapFor } from "./grasp.ts";
import { type GroundSource, seenThrough, under } from "./ground.ts";
import { setDownWords, spokenCost, spokenDay, stuckWords } from "./speech.ts";
import type { Windowing } from "./windowing.ts";

/**
 * Holds tasks by pointer or keys: turns gestures into proposals for the desk, one whole proposal from the begin each
 * time, and the desk judges it at once. What is held is a task, all that are selected, an EVA, or one end of a task.
 * Pointer and keys stand in one file because never both may hold: they share what is in hand.
 */
export interface Hold {
  /** A pointer went down on a task of the line or the bench, on an end of one, or on an EVA's bar. */
  press(event: PointerEvent, grip: Grip): void;
  /** Takes hold by keys, where the task is, with all that are selected. False when something is held or pinned. */
  take(task: string, lane: string | null, eva?: string): boolean;
  /** Lets a press that is no drag yet go without a click, for a menu that opens under it. */
  forget(): void;
  /** A key while something is held; true when it was meant for the hold. */
  key(event: KeyboardEvent): boolean;
  readonly holding: () => boolean;
  /** Follows pointers until the answer is called; what is held then is taken back. */
  listen(): () => void;
}

/** How long a held task must rest before a listener is told what it costs, ms. */
const SPEAK_AFTER_MS = 350;

export function holding(
  desk: Desk,
  look: Look,
  ground: GroundSource,
  windows: Windowing,
  walkS: (plan: Plan) => WalkS,
): Hold {
  let drag: Drag = IDLE;
  let keys: KeyHold | null = null;
  let grasp: Grasp | null = null;
  let free = false;
  let other = false;
  let last: PointerEvent | null = null;
  let speech: ReturnType<typeof setTimeout> | undefined;

  const say = (spoken: string): void => look.setState({ spoken });

  /** What others do: as chosen, the other way while the key for it is down. */
  const mannerNow = (): Manner => {
    const { manner } = look.getState();
    return other ? (manner === "stay" ? "slide" : "stay") : manner;
  };

  /** Takes hold; false, with the reason shown, where a pin forbids it. */
  const begin = (grip: Grip, at: { readonly x: number; readonly y: number }): boolean => {
    const { plan, selection } = desk.state.getState();
    const chosen = grip.more && !selection.includes(grip.task) ? [...selection, grip.task] : selection;
    const next = graspOf(plan, chosen, grip);
    const { tasks } = next.held;
    // A longer or shorter task keeps its start unless it is the start that is in hand.
    const pinned = next.edge === "end" ? [] : pinnedAmong(plan, tasks);
    desk.select(tasks);
    if (pinned.length > 0) {
      look.setState({ refused: { tasks: pinned, ...at } });
      say("Pinned: press P to unpin it first.");
      return false;
    }
    grasp = next;
    look.setState({ refused: null, menu: null });
    desk.begin(next.name, tasks);
    return true;
  };

  const show = (target: Target, snap: Snapped | null): void => {
    if (!grasp) return;
    const manner = mannerNow();
    const { slid, stuck } = offer(desk, grasp, target, manner, walkS);
    const { anchor, tasks, fromLane, eva } = grasp.held;
    const pointer = keys || !last ? null : { x: last.clientX, y: last.clientY };
    const by = keys ? "keys" : "pointer";
    const { edge } = grasp;
    look.setState({
      inHand: { task: anchor, tasks, edge, eva, manner, slid, stuck, fromLane, by, pointer, target, snap },
    });
    clearTimeout(speech);
    speech = setTimeout(() => {
      const { preview, plan } = desk.state.getState();
      if (!preview) return;
      const cannot = stuckWords(plan, stuck);
      say(`${spokenCost(plan, preview, target, slid.size)}${cannot === null ? "" : ` ${cannot}`}`);
    }, SPEAK_AFTER_MS);
  };

  const follow = (): void => {
    if (drag.state !== "held" || !grasp) return;
    const base = ground();
    if (!base) return;
    const { grip, now } = drag;
    const seen = seenThrough(base, look.getState().window);
    // An end or an EVA cannot be left on the bench.
    const benches = grasp.edge === null && grasp.held.eva === null && isOverBench(now.x, now.y);
    const raw = targetUnder(grip, under(seen, now, benches));
    if (raw.at === "bench") {
      show(raw, null);
      return;
    }
    const { plan, verdict, fitBands, preview } = desk.state.getState();
    const aim = { lane: laneFor(plan, grasp, raw.lane), startS: raw.startS };
    const start = preview?.start ?? plan.schedule;
    const snap = snapFor(plan, start, verdict, grasp, aim, fitBands ?? [], seen.scale.pxPerS, free);
    show({ at: "line", lane: aim.lane, startS: snap.startS }, snap);
  };

  /** How far a held task is inside an edge of the line: negative at the left, positive at the right, 0 between. */
  const beyondEdge = (): number => {
    const base = ground();
    if (drag.state !== "held" || !base) return 0;
    const within = drag.now.x - base.left;
    const width = base.scale.widthPx;
    const out = within < EDGE_PX ? within - EDGE_PX : Math.max(0, within - width + EDGE_PX);
    return out === 0 || isOverBench(drag.now.x, drag.now.y) ? 0 : Math.max(-60, Math.min(60, out));
  };

  const edge = edgeRoll(beyondEdge, (share) => {
    windows.panShare(share);
    follow();
  });

  const letGo = (): void => {
    clearTimeout(speech);
    edge.stop();
    drag = IDLE;
    keys = null;
    grasp = null;
    last = null;
    other = false;
    look.setState({ inHand: null });
  };

  const takeBack = (): void => {
    desk.cancel();
    letGo();
    say("Taken back.");
  };

  const setDown = (): void => {
    const hand = look.getState().inHand;
    const name = grasp?.name ?? "Move";
    letGo();
    if (!hand) {
      desk.cancel();
      return;
    }
    const { plan, verdict: settled } = desk.state.getState();
    if (hand.target.at === "bench") {
      desk.cancel();
      desk.bench(hand.tasks);
    } else {
      const slides = hand.slid.size;
      desk.commit(
        slides === 0 ? name : `${name}, ${slides} ${slides === 1 ? "other slides" : "others slide"}`,
      );
    }
    const { plan: after, verdict } = desk.state.getState();
    const before = after === plan ? null : { plan, verdict: settled, now: after, tasks: hand.tasks };
    look.setState({ before });
    const spot = after.schedule.placements.find((one) => one.task === hand.task);
    const lane = spot?.crew.includes(hand.target.at === "line" ? hand.target.lane : "")
      ? (hand.target as { lane: string }).lane
      : (spot?.crew[0] ?? REMOTE);
    if (spot && hand.eva === null) look.setState({ focus: { task: hand.task, lane } });
    say(
      `Set down at ${setDownWords(after, hand.target, hand.task, hand.edge)}. ${spokenDay(after, verdict)}`,
    );
  };

  const act = (what: DragAct): void => {
    switch (what) {
      case "begin": {
        if (drag.state !== "held") return;
        if (begin(drag.grip, drag.now)) follow();
        else drag = IDLE;
        return;
      }
      case "follow":
        follow();
        edge.watch();
        return;
      case "set down":
        setDown();
        return;
      case "take back":
        takeBack();
        return;
      case "click":
      case "none":
    }
  };

  const choose = (grip: Grip): void => {
    const { plan, selection } = desk.state.getState();
    if (grip.eva !== undefined) {
      desk.select(graspOf(plan, selection, grip).held.tasks);
      return;
    }
    desk.select(clicked(selection, grip.task, grip.more ?? false));
    if (grip.lane !== null) look.setState({ focus: { task: grip.task, lane: grip.lane } });
  };

  const step = (event: DragEvent): void => {
    const next = dragStep(drag, event, last?.pointerType === "touch" ? TOUCH_CLICK_PX : CLICK_PX);
    const click = next.act === "click" && drag.state === "pressed" ? drag.grip : null;
    drag = next.drag;
    if (click) choose(click);
    act(next.act);
  };

  const onMove = (event: PointerEvent): void => {
    if (drag.state === "idle") return;
    last = event;
    free = event.altKey;
    other = event.shiftKey;
    step({ type: "move", pointer: event.pointerId, at: { x: event.clientX, y: event.clientY } });
  };
  const onUp = (event: PointerEvent): void => step({ type: "release", pointer: event.pointerId });
  const onLose = (event: PointerEvent): void => step({ type: "lose", pointer: event.pointerId });
  /** The keys that change the manner or hold snapping off act at once, without a move of the pointer. */
  const onModifier = (event: KeyboardEvent): void => {
    if (drag.state !== "held" || (event.key !== "Shift" && event.key !== "Alt")) return;
    other = event.shiftKey;
    free = event.altKey;
    follow();
    event.preventDefault();
  };

  return {
    holding: () => drag.state === "held" || keys !== null,
    forget() {
      if (drag.state === "pressed") drag = IDLE;
    },
    press(event, grip) {
      if (keys) return;
      last = event;
      free = event.altKey;
      look.setState({ refused: null, menu: null });
      step({
        type: "press",
        pointer: event.pointerId,
        grip,
        at: { x: event.clientX, y: event.clientY },
      });
    },
    take(task, lane, eva) {
      if (keys || drag.state !== "idle") return false;
      const { plan, benchReasons } = desk.state.getState();
      const spot = plan.schedule.placements.find((one) => one.task === task);
      const fits = benchReasons.get(task)?.fitsAt;
      const target: Target = spot
        ? { at: "line", lane: lane ?? spot.crew[0] ?? REMOTE, startS: spot.startS }
        : fits
          ? { at: "line", lane: fits.crew[0] ?? REMOTE, startS: fits.startS }
          : { at: "line", ...lineStart() };
      const fromLane = spot ? (lane ?? spot.crew[0] ?? REMOTE) : null;
      const grip = { task, lane: fromLane, offsetS: 0, ...(eva === undefined ? {} : { eva }) };
      if (!begin(grip, { x: window.innerWidth / 2, y: window.innerHeight / 3 })) return false;
      keys = { task, fromLane: spot ? lane : null, target };
      show(target, null);
      reveal(target);
      return true;
    },
    key(event) {
      if (!keys) {
        if (event.key !== "Escape" || drag.state !== "held") return false;
        step({ type: "escape" });
        return true;
      }
      const base = ground();
      if (!base) return false;
      if (event.key === "o" || event.key === "O") {
        const { manner } = look.getState();
        look.setState({ manner: manner === "stay" ? "slide" : "stay" });
        show(keys.target, null);
        return true;
      }
      const { fitBands, plan } = desk.state.getState();
      const { startGridS } = plan.rules;
      const next = keyStep(
        keys,
        { key: event.key, shift: event.shiftKey },
        base.standing.lanes,
        (lane) => fittingStarts(fitBands ?? [], lane, startGridS),
        lineStart(),
        startGridS,
      );
      if (next.act === "none") {
        const jump = ["PageUp", "PageDown", "Home", "End"].includes(event.key);
        if (jump)
          say(
            fitBands ? "No further start that fits on this lane." : "Starts that fit are being worked out.",
          );
        // While something is held, no other command may change the plan under it; Tab would leave it in the air.
        return !event.metaKey && !event.ctrlKey && event.key !== "F5";
      }
      if (next.act === "move") {
        const { target } = next.hold;
        // An EVA stays with its crew and off the bench.
        if (grasp?.held.eva !== null && (target.at === "bench" || target.lane !== laneOf(keys.target)))
          return true;
        keys = next.hold;
        show(target, null);
        reveal(target);
      } else if (next.act === "set down") setDown();
      else takeBack();
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
        if (before.preview && !now.preview && (keys || drag.state === "held")) letGo();
      });
      return () => {
        stop();
        if (drag.state === "held" || keys) takeBack();
        window.removeEventListener("pointermove", onMove);
        window.removeEventListener("pointerup", onUp);
        window.removeEventListener("pointercancel", onLose);
        window.removeEventListener("keydown", onModifier);
        window.removeEventListener("keyup", onModifier);
      };
    },
  };

  /** Where a benched task comes to lie first: the first crew lane, in the middle of what is shown. */
  function lineStart(): { lane: string; startS: number } {
    const { plan } = desk.state.getState();
    const { window: shown } = look.getState();
    const remote = keys && plan.tasks.find((one) => one.id === keys?.task)?.crew.count === 0;
    const startS = gridTo(Math.round((shown.startS + shown.endS) / 2), plan.rules.startGridS);
    return { lane: remote ? REMOTE : (plan.crew[0]?.id ?? REMOTE), startS };
  }

  function reveal(target: Target): void {
    if (target.at === "line") windows.reveal({ startS: target.startS, endS: target.startS + 600 });
  }
}

function laneOf(target: Target): string | null {
  return target.at === "line" ? target.lane : null;
}

/** True over the bench. Asked for its box and not for what is under the pointer: that is far quicker. */
function isOverBench(x: number, y: number): boolean {
  const box = document.querySelector("[data-bench]")?.getBoundingClientRect();
  return box !== undefined && x >= box.left && x <= box.right && y >= box.top && y <= box.bottom;
}
