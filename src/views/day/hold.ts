import {
  type Drag,
  type DragAct,
  type DragEvent,
  dragStep,
  fittingStarts,
  type Grip,
  IDLE,
  type KeyHold,
  keyStep,
  proposed,
  REMOTE,
  roundGridS,
  type Snapped,
  snapped,
  snapPoints,
  type Target,
  targetUnder,
} from "../../dayline/index.ts";
import type { Desk } from "../../store/index.ts";
import { CLICK_PX, EDGE_PX, SNAP_PX } from "../line/sizes.ts";
import type { Look } from "../look.ts";
import { type GroundSource, seenThrough, under } from "./ground.ts";
import { spokenCost, spokenDay, targetWords } from "./speech.ts";
import type { Windowing } from "./windowing.ts";

/**
 * Holds a task by pointer or keys: turns gestures into proposals for the desk, one whole proposal from the begin each
 * time, and the desk judges it at once. One task is held at a time.
 */
export interface Hold {
  /** A pointer went down on a task of the line or the bench. */
  press(event: PointerEvent, grip: Grip): void;
  /** Takes hold by keys, where the task is. False when something is held already or the task is pinned. */
  take(task: string, lane: string | null): boolean;
  /** A key while something is held; true when it was meant for the hold. */
  key(event: KeyboardEvent): boolean;
  readonly holding: () => boolean;
  /** Follows pointers until the answer is called; what is held then is taken back. */
  listen(): () => void;
}

/** How long a held task must rest before a listener is told what it costs, ms. */
const SPEAK_AFTER_MS = 350;
/** How long a held task must rest near an edge before the window moves, ms. */
const EDGE_REST_MS = 300;

export function holding(desk: Desk, look: Look, ground: GroundSource, windows: Windowing): Hold {
  let drag: Drag = IDLE;
  let keys: KeyHold | null = null;
  let free = false;
  let last: PointerEvent | null = null;
  let edge = 0;
  let edgeSinceMs: number | null = null;
  let speech: ReturnType<typeof setTimeout> | undefined;

  const say = (spoken: string): void => look.setState({ spoken });
  const planNow = () => desk.state.getState().plan;

  const isPinned = (task: string): boolean =>
    planNow().tasks.find((one) => one.id === task)?.pin?.startS !== undefined;

  const begin = (task: string): void => {
    const { plan } = desk.state.getState();
    const name = plan.tasks.find((one) => one.id === task)?.name ?? task;
    const known = plan.schedule.placements.some((one) => one.task === task);
    desk.select([task]);
    desk.begin(`${known ? "Move" : "Place"} ${name}`, [task]);
  };

  const show = (task: string, fromLane: string | null, target: Target, snap: Snapped | null): void => {
    desk.preview((start) => proposed(planNow(), start, task, fromLane, target));
    const pointer = keys || !last ? null : { x: last.clientX, y: last.clientY };
    look.setState({ inHand: { task, fromLane, by: keys ? "keys" : "pointer", pointer, target, snap } });
    clearTimeout(speech);
    speech = setTimeout(() => {
      const { preview, plan } = desk.state.getState();
      if (preview) say(spokenCost(plan, preview, target));
    }, SPEAK_AFTER_MS);
  };

  const follow = (): void => {
    if (drag.state !== "held") return;
    const base = ground();
    if (!base) return;
    const { grip, now } = drag;
    const seen = seenThrough(base, look.getState().window);
    const raw = targetUnder(grip, under(seen, now, isOverBench(now.x, now.y)));
    if (raw.at === "bench") {
      show(grip.task, grip.lane, raw, null);
      return;
    }
    const { plan, fitBands, preview } = desk.state.getState();
    const remote = plan.tasks.find((one) => one.id === grip.task)?.crew.count === 0;
    const lane = remote ? REMOTE : raw.lane === REMOTE ? (grip.lane ?? plan.crew[0]?.id ?? REMOTE) : raw.lane;
    const start = preview?.start ?? plan.schedule;
    const points = free ? [] : snapPoints(plan, start, grip.task, lane, fitBands ?? []);
    const { pxPerS } = seen.scale;
    const snap = snapped(raw.startS, points, SNAP_PX / pxPerS, free ? 1 : roundGridS(pxPerS));
    show(grip.task, grip.lane, { at: "line", lane, startS: snap.startS }, snap);
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

  /** Resting near the edge moves the window under the held task, faster the farther out; passing by does not. */
  const roll = (nowMs: number): void => {
    edge = 0;
    const out = beyondEdge();
    if (out === 0) {
      edgeSinceMs = null;
      return;
    }
    edge = requestAnimationFrame(roll);
    edgeSinceMs ??= nowMs;
    if (nowMs - edgeSinceMs < EDGE_REST_MS) return;
    windows.panShare(out * 0.0002);
    follow();
  };

  const letGo = (): void => {
    clearTimeout(speech);
    cancelAnimationFrame(edge);
    edge = 0;
    edgeSinceMs = null;
    drag = IDLE;
    keys = null;
    last = null;
    look.setState({ inHand: null });
  };

  const takeBack = (): void => {
    desk.cancel();
    letGo();
    say("Taken back.");
  };

  const setDown = (): void => {
    const hand = look.getState().inHand;
    letGo();
    if (!hand) {
      desk.cancel();
      return;
    }
    const { plan } = desk.state.getState();
    if (hand.target.at === "bench") {
      desk.cancel();
      desk.bench([hand.task]);
    } else {
      desk.commit();
    }
    const { plan: after, verdict } = desk.state.getState();
    const spot = after.schedule.placements.find((one) => one.task === hand.task);
    const lane = spot?.crew.includes(hand.target.at === "line" ? hand.target.lane : "")
      ? (hand.target as { lane: string }).lane
      : (spot?.crew[0] ?? REMOTE);
    if (spot) look.setState({ focus: { task: hand.task, lane } });
    say(`Set down at ${targetWords(plan, hand.target)}. ${spokenDay(after, verdict)}`);
  };

  const act = (what: DragAct): void => {
    switch (what) {
      case "begin": {
        if (drag.state !== "held") return;
        const { task } = drag.grip;
        if (isPinned(task)) {
          drag = IDLE;
          say("Pinned: press P to unpin it first.");
          desk.select([task]);
          return;
        }
        begin(task);
        follow();
        return;
      }
      case "follow":
        follow();
        if (edge === 0 && beyondEdge() !== 0) edge = requestAnimationFrame(roll);
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

  const step = (event: DragEvent): void => {
    const next = dragStep(drag, event, CLICK_PX);
    const click = next.act === "click" && drag.state === "pressed" ? drag.grip : null;
    drag = next.drag;
    if (click) {
      desk.select([click.task]);
      if (click.lane !== null) look.setState({ focus: { task: click.task, lane: click.lane } });
    }
    act(next.act);
  };

  const onMove = (event: PointerEvent): void => {
    if (drag.state === "idle") return;
    last = event;
    free = event.altKey;
    step({ type: "move", pointer: event.pointerId, at: { x: event.clientX, y: event.clientY } });
  };
  const onUp = (event: PointerEvent): void => step({ type: "release", pointer: event.pointerId });
  const onLose = (event: PointerEvent): void => step({ type: "lose", pointer: event.pointerId });

  return {
    holding: () => drag.state === "held" || keys !== null,
    press(event, grip) {
      if (keys) return;
      last = event;
      free = event.altKey;
      step({
        type: "press",
        pointer: event.pointerId,
        grip,
        at: { x: event.clientX, y: event.clientY },
      });
    },
    take(task, lane) {
      if (keys || drag.state !== "idle") return false;
      if (isPinned(task)) {
        say("Pinned: press P to unpin it first.");
        return false;
      }
      const { plan, benchReasons } = desk.state.getState();
      const spot = plan.schedule.placements.find((one) => one.task === task);
      const fits = benchReasons.get(task)?.fitsAt;
      const target: Target = spot
        ? { at: "line", lane: lane ?? spot.crew[0] ?? REMOTE, startS: spot.startS }
        : fits
          ? { at: "line", lane: fits.crew[0] ?? REMOTE, startS: fits.startS }
          : { at: "line", ...lineStart() };
      keys = { task, fromLane: spot ? lane : null, target };
      begin(task);
      show(task, keys.fromLane, target, null);
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
      const { fitBands } = desk.state.getState();
      const next = keyStep(
        keys,
        { key: event.key, shift: event.shiftKey },
        base.standing.lanes,
        (lane) => fittingStarts(fitBands ?? [], lane),
        lineStart(),
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
        const { task, fromLane, target } = next.hold;
        keys = next.hold;
        show(task, fromLane, target, null);
        reveal(target);
      } else if (next.act === "set down") setDown();
      else takeBack();
      return true;
    },
    listen() {
      window.addEventListener("pointermove", onMove);
      window.addEventListener("pointerup", onUp);
      window.addEventListener("pointercancel", onLose);
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
      };
    },
  };

  /** Where a benched task comes to lie first: the first crew lane, in the middle of what is shown. */
  function lineStart(): { lane: string; startS: number } {
    const { plan } = desk.state.getState();
    const { window: shown } = look.getState();
    const remote = keys && plan.tasks.find((one) => one.id === keys?.task)?.crew.count === 0;
    const startS = Math.round((shown.startS + shown.endS) / 2 / 60) * 60;
    return { lane: remote ? REMOTE : (plan.crew[0]?.id ?? REMOTE), startS };
  }

  function reveal(target: Target): void {
    if (target.at === "line") windows.reveal({ startS: target.startS, endS: target.startS + 600 });
  }
}

/** True over the bench. Asked for its box and not for what is under the pointer: that is far quicker. */
function isOverBench(x: number, y: number): boolean {
  const box = document.querySelector("[data-bench]")?.getBoundingClientRect();
  return box !== undefined && x >= box.left && x <= box.right && y >= box.top && y <= box.bottom;
}
