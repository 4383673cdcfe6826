import { fittingStarts, type Gesture, type GestureDesk, REMOTE, type Target } from "../../editor/index.ts";
import { gridTo } from "../../kernel/index.ts";
import type { Plan } from "../../plan/index.ts";
import type { Look } from "../look.ts";
import type { GestureSurface } from "./surface.ts";

/** What a step of the gesture reads of the desk. */
export function deskNow({ desk, look, ground }: GestureSurface, gesture: Gesture): GestureDesk {
  const { plan, selection, fitBands } = desk.state.getState();
  const inHand = gesture.state === "keyed" ? gesture.taken.anchor : null;
  return {
    plan,
    selection,
    lanes: gesture.state === "keyed" ? (ground()?.standing.lanes ?? []) : [],
    fitting: (lane) => fittingStarts(fitBands ?? [], lane, plan.rules.startGridS),
    lineStart: () => lineStart(plan, look, inHand),
  };
}

/** Where a task lies when it is taken by keys: where it is, where it fits, or in the middle of what is shown. */
export function whereTaken(
  { desk, look }: GestureSurface,
  task: string,
  lane: string | null,
): { readonly target: Target; readonly fromLane: string | null } {
  const { plan, benchReasons } = desk.state.getState();
  const spot = plan.schedule.placements.find((one) => one.task === task);
  if (spot) {
    const fromLane = lane ?? spot.crew[0] ?? REMOTE;
    return { target: { at: "line", lane: fromLane, startS: spot.startS }, fromLane };
  }
  const fits = benchReasons.get(task)?.fitsAt;
  const at = fits ? { lane: fits.crew[0] ?? REMOTE, startS: fits.startS } : lineStart(plan, look, task);
  return { target: { at: "line", ...at }, fromLane: null };
}

/** Where a benched task comes to lie first: the first crew lane, in the middle of what is shown. */
function lineStart(plan: Plan, look: Look, task: string | null): { lane: string; startS: number } {
  const { window: shown } = look.getState();
  const remote = plan.tasks.find((one) => one.id === task)?.crew.count === 0;
  const startS = gridTo(Math.round((shown.startS + shown.endS) / 2), plan.rules.startGridS);
  return { lane: remote ? REMOTE : (plan.crew[0]?.id ?? REMOTE), startS };
}
