import { fittingStarts, type Gesture, type GestureView, REMOTE, type Target } from "../../editor/index.ts";
import { gridTo } from "../../kernel/index.ts";
import type { Plan } from "../../plan/index.ts";
import type { ViewStore } from "../viewstate.ts";
import type { GestureSurface } from "./surface.ts";

/** What a step of the gesture sees of the session. */
export function gestureView({ session, view, ground }: GestureSurface, gesture: Gesture): GestureView {
  const { plan, selection, fitBands } = session.state.getState();
  const inHand = gesture.state === "keyed" ? gesture.taken.anchor : null;
  return {
    plan,
    selection,
    lanes: gesture.state === "keyed" ? (ground()?.layout.lanes ?? []) : [],
    fitting: (lane) => fittingStarts(fitBands ?? [], lane, plan.rules.startGridS),
    lineStart: () => lineStart(plan, view, inHand),
  };
}

/** Where a task lies when it is taken by keys: where it is, where it fits, or in the middle of what is shown. */
export function whereTaken(
  { session, view }: GestureSurface,
  task: string,
  lane: string | null,
): { readonly target: Target; readonly fromLane: string | null } {
  const { plan, benchReasons } = session.state.getState();
  const placement = plan.schedule.placements.find((one) => one.task === task);
  if (placement) {
    const fromLane = lane ?? placement.crew[0] ?? REMOTE;
    return { target: { at: "line", lane: fromLane, startS: placement.startS }, fromLane };
  }
  const fits = benchReasons.get(task)?.fitsAt;
  const at = fits ? { lane: fits.crew[0] ?? REMOTE, startS: fits.startS } : lineStart(plan, view, task);
  return { target: { at: "line", ...at }, fromLane: null };
}

/** Where a benched task comes to lie first: the first crew lane, in the middle of what is shown. */
function lineStart(plan: Plan, view: ViewStore, task: string | null): { lane: string; startS: number } {
  const { window: shown } = view.getState();
  const remote = plan.tasks.find((one) => one.id === task)?.crew.count === 0;
  const startS = gridTo(Math.round((shown.startS + shown.endS) / 2), plan.rules.startGridS);
  return { lane: remote ? REMOTE : (plan.crew[0]?.id ?? REMOTE), startS };
}
