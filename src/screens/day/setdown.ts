import { type Grip, NO_PLACE, placeHindered, REMOTE, selectedBy, type Taken } from "../../editor/index.ts";
import type { Plan } from "../../plan/index.ts";
import { type Session, stepName } from "../../session/index.ts";
import { counted, evaName, placeName, taskName } from "../../words/index.ts";
import type { InHand, ViewState } from "../viewstate.ts";
import { commitWords, spokenDay } from "./speech.ts";
import type { GestureSurface } from "./surface.ts";

/** Makes what is in hand part of the plan, or benches it; the answer is what is said of it. */
export function commit({ session, view }: GestureSurface, taken: Taken, hand: InHand): string {
  const { plan, verdict } = session.state.getState();
  const refusal = refusalOf(plan, taken, hand);
  if (refusal !== null) {
    session.cancel();
    view.setState({ hint: refusal });
    return refusal;
  }
  put(session, plan, taken, hand);
  const after = session.state.getState();
  view.setState({
    before: after.plan === plan ? null : { plan, verdict, now: after.plan, tasks: hand.tasks },
  });
  const focus = hand.eva === null ? placeOf(after.plan, hand) : null;
  if (focus) view.setState({ focus });
  const where = commitWords(after.plan, hand.target, hand.task, hand.edge);
  return `Set down at ${where}. ${spokenDay(after.plan, after.verdict)}`;
}

/** Why what was led over the map changes nothing; null where it does, or was led elsewhere. */
function refusalOf(plan: Plan, taken: Taken, { target }: InHand): string | null {
  if (target.at !== "place") return null;
  const why = placeHindered(plan, taken);
  if (why !== null) return `It keeps its place: ${why}.`;
  return target.place === NO_PLACE ? "Let go over no place: nothing was changed." : null;
}

/** Makes the one step of the history that the hand asks for. */
function put(session: Session, plan: Plan, taken: Taken, { target, task, tasks, slid }: InHand): void {
  if (target.at === "bench") {
    session.cancel();
    session.bench(tasks);
  } else if (target.at === "place") {
    session.commit(`Put ${taskName(plan, task)} at ${placeName(plan, target.place)}`);
  } else {
    const name = nameOf(plan, taken);
    session.commit(slid.size === 0 ? name : `${name}, ${counted(slid.size, "other slides", "others slide")}`);
  }
}

/** Where the keyboard's place is after a task was set down: on the lane that it was led to where it is done there; null off the line. */
function placeOf(plan: Plan, { target, task }: InHand): ViewState["focus"] {
  const placement = plan.schedule.placements.find((one) => one.task === task);
  if (!placement) return null;
  const wanted = target.at === "line" ? target.lane : null;
  const lane = wanted !== null && placement.crew.includes(wanted) ? wanted : (placement.crew[0] ?? REMOTE);
  return { task, lane };
}

/** What a click selects: the task, with the key for it one more or less, or all of an EVA. */
export function choose({ session, view }: GestureSurface, grip: Grip): void {
  const { plan, selection } = session.state.getState();
  session.select(selectedBy(plan, selection, grip));
  if (grip.eva === undefined && grip.lane !== null) {
    view.setState({ focus: { task: grip.task, lane: grip.lane } });
  }
}

/** What the step is called in the history. */
export function nameOf(plan: Plan, { anchor, tasks, edge, eva }: Taken): string {
  if (eva !== null) return `Move ${evaName(plan, eva)}`;
  if (edge !== null) return stepName("Duration of", plan, [anchor]);
  const placed = plan.schedule.placements.some((one) => one.task === anchor);
  return stepName(placed ? "Move" : "Place", plan, tasks);
}
