import {
  aimed,
  type Gesture,
  laneFor,
  otherManner,
  proposalOf,
  slidBy,
  type Snapped,
  type Taken,
  type Target,
  targetUnder,
} from "../../editor/index.ts";
import type { InHand } from "../viewstate.ts";
import { isOverBench, placeUnder, seenThrough, under } from "./ground.ts";
import { SNAP_PX } from "./line/sizes.ts";
import type { GestureSurface } from "./surface.ts";

/** What is in hand and where it is led to, before the day is made of it. */
export type Aim = Pick<InHand, "by" | "manner" | "target" | "snap"> & { readonly taken: Taken };

/** Where the gesture leads; null while nothing is in hand or the line is not on the page. */
export function aimOf({ session, view, ground }: GestureSurface, gesture: Gesture): Aim | null {
  const { manner } = view.getState();
  if (gesture.state === "keyed") {
    const { taken, target } = gesture;
    return { by: "keys", manner, target, snap: null, taken };
  }
  const base = ground();
  if (gesture.state !== "dragged" || !base) return null;
  const { taken, grip, now, modifiers } = gesture;
  const aim = {
    by: "pointer" as const,
    manner: modifiers.other ? otherManner(manner) : manner,
    taken,
  };
  const seen = seenThrough(base, view.getState().window);
  // An end or an EVA cannot be left on the bench.
  const over = placeUnder(now);
  if (over !== null) return { ...aim, target: over, snap: null };
  const benches = taken.edge === null && taken.eva === null && isOverBench(now);
  const raw = targetUnder(grip, under(seen, now, benches));
  if (raw.at !== "line") return { ...aim, target: raw, snap: null };
  const { plan, verdict, fitBands, preview } = session.state.getState();
  const lane = laneFor(plan, taken, raw.lane);
  const snap: Snapped = aimed(
    plan,
    taken,
    { lane, startS: raw.startS },
    {
      start: preview?.start ?? plan.schedule,
      span: verdict.outings.find((one) => one.eva === taken.eva)?.span ?? null,
      bands: fitBands ?? [],
      pxPerS: seen.scale.pxPerS,
      radiusPx: SNAP_PX,
      free: modifiers.free,
    },
  );
  return { ...aim, target: { at: "line", lane, startS: snap.startS }, snap };
}

/** Shows in the session what comes of it, and what is in hand in the view; nothing where the pointer moved and its aim did not. */
export function show({ session, view, walkS }: GestureSurface, aim: Aim): void {
  const { taken, by, manner, target, snap } = aim;
  const last = view.getState().inHand;
  if (last && sameAim(last, aim)) return;
  const { plan } = session.state.getState();
  const made = proposalOf(plan, taken, target, manner, walkS);
  if (made.plan === plan) session.preview(() => made.schedule);
  else session.previewPlan(() => ({ ...made.plan, schedule: made.schedule }));
  const { preview } = session.state.getState();
  const slid = preview ? slidBy(preview.start, preview.schedule, taken.tasks) : new Map<string, number>();
  const { anchor: task, tasks, edge, eva, fromLane } = taken;
  view.setState({
    inHand: { task, tasks, edge, eva, manner, slid, stuck: made.stuck, fromLane, by, target, snap },
  });
}

/** True when what is in hand is led where it was before. Starts go by the plan's grid, so a pointer often moves without one. */
function sameAim(last: InHand, aim: Aim): boolean {
  return (
    last.tasks === aim.taken.tasks &&
    last.by === aim.by &&
    last.manner === aim.manner &&
    sameTarget(last.target, aim.target) &&
    last.snap?.to?.why === aim.snap?.to?.why
  );
}

function sameTarget(a: Target, b: Target): boolean {
  if (a.at === "line") return b.at === "line" && a.lane === b.lane && a.startS === b.startS;
  if (a.at === "place") return b.at === "place" && a.place === b.place;
  return b.at === "bench";
}
