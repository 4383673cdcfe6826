import { type Grip, NO_PLACE, placeHindered, REMOTE, selectedBy, type Taken } from "../../editor/index.ts";
import type { Plan } from "../../plan/index.ts";
import { stepName } from "../../session/index.ts";
import { counted, evaName, placeName, taskName } from "../../words/index.ts";
import type { InHand } from "../look.ts";
import { setDownWords, spokenDay } from "./speech.ts";
import type { GestureSurface } from "./surface.ts";

/** Makes what is in hand part of the plan, or benches it; the answer is what is said of it. */
export function setDown({ desk, look }: GestureSurface, taken: Taken, hand: InHand): string {
  const { plan, verdict } = desk.state.getState();
  if (hand.target.at === "place") {
    const why = placeHindered(plan, taken);
    if (why !== null || hand.target.place === NO_PLACE) {
      desk.cancel();
      const words =
        why === null ? "Let go over no place: nothing was changed." : `It keeps its place: ${why}.`;
      look.setState({ hint: words });
      return words;
    }
    desk.commit(`Put ${taskName(plan, hand.task)} at ${placeName(plan, hand.target.place)}`);
  } else if (hand.target.at === "bench") {
    desk.cancel();
    desk.bench(hand.tasks);
  } else {
    const name = nameOf(plan, taken);
    const slides = hand.slid.size;
    desk.commit(slides === 0 ? name : `${name}, ${counted(slides, "other slides", "others slide")}`);
  }
  const after = desk.state.getState();
  look.setState({
    before: after.plan === plan ? null : { plan, verdict, now: after.plan, tasks: hand.tasks },
  });
  const spot = after.plan.schedule.placements.find((one) => one.task === hand.task);
  if (spot && hand.eva === null) {
    const wanted = hand.target.at === "line" ? hand.target.lane : null;
    const lane = wanted !== null && spot.crew.includes(wanted) ? wanted : (spot.crew[0] ?? REMOTE);
    look.setState({ focus: { task: hand.task, lane } });
  }
  const where = setDownWords(after.plan, hand.target, hand.task, hand.edge);
  return `Set down at ${where}. ${spokenDay(after.plan, after.verdict)}`;
}

/** What a click selects: the task, with the key for it one more or less, or all of an EVA. */
export function choose({ desk, look }: GestureSurface, grip: Grip): void {
  const { plan, selection } = desk.state.getState();
  desk.select(selectedBy(plan, selection, grip));
  if (grip.eva === undefined && grip.lane !== null) {
    look.setState({ focus: { task: grip.task, lane: grip.lane } });
  }
}

/** What the step is called in the history. */
export function nameOf(plan: Plan, { anchor, tasks, edge, eva }: Taken): string {
  if (eva !== null) return `Move ${evaName(plan, eva)}`;
  if (edge !== null) return stepName("Duration of", plan, [anchor]);
  const placed = plan.schedule.placements.some((one) => one.task === anchor);
  return stepName(placed ? "Move" : "Place", plan, tasks);
}
