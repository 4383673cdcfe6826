import type { Shift, Verdict } from "../../answers/index.ts";
import { type Edge, NO_PLACE, REMOTE, type Stuck, type Target } from "../../editor/index.ts";
import type { Plan } from "../../plan/index.ts";
import { type SessionState, type Preview, worseWords } from "../../session/index.ts";
import { clock, counted, crewName, percent, placeName, signed, taskName } from "../../words/index.ts";
import type { ViewState } from "../viewstate.ts";
import { ASSUMED, isWorstAssumed, marginCause, worstMargin } from "../words.ts";

/** The place of a task that is held over the map, in words. */
export function placeWords(plan: Plan, place: string): string {
  return place === NO_PLACE ? "no place: it stays where it was" : placeName(plan, place);
}

/** Where a target is, in words: "4:17, EV1" or "the bench". */
function targetWords(plan: Plan, target: Target): string {
  if (target.at === "bench") return "the bench";
  if (target.at === "place") return placeWords(plan, target.place);
  return `${clock(target.startS)}, ${target.lane === REMOTE ? "by command" : crewName(plan, target.lane)}`;
}

/** Where a task has been set down, in words: all who do it, and for a duration the end that was moved. */
export function commitWords(plan: Plan, target: Target, task: string, edge: Edge | null): string {
  const crew = plan.schedule.placements.find((one) => one.task === task)?.crew ?? [];
  if (target.at !== "line" || crew.length === 0) return targetWords(plan, target);
  const who = crew.map((member) => crewName(plan, member)).join(" and ");
  const when = clock(target.startS);
  return edge === null
    ? `${when}, ${who}`
    : `${when}, where it now ${edge === "end" ? "ends" : "starts"}, ${who}`;
}

/** What the move in hand costs, for listeners, with what cannot give way; null while nothing is shown. */
export function spokenHand({ plan, preview }: SessionState, { inHand }: ViewState): string | null {
  if (!preview || !inHand) return null;
  const cannot = stuckWords(plan, inHand.stuck);
  const cost = spokenCost(plan, preview, inHand.target, inHand.slid.size);
  return cannot === null ? cost : `${cost} ${cannot}`;
}

/** What a move costs, in one breath, for those who listen. */
export function spokenCost(plan: Plan, preview: Preview, target: Target, slides = 0): string {
  const { difference, verdict } = preview;
  return [
    spokenMove(plan, preview, target),
    ...(slides > 0 ? [`${counted(slides, "other slides", "others slide")}.`] : []),
    ...spokenHarm(difference),
    ...spokenGain(difference),
    spokenMargin(plan, verdict),
  ].join(" ");
}

/** What goes where. */
function spokenMove(plan: Plan, preview: Preview, target: Target): string {
  const task = plan.tasks.find((one) => one.id === preview.tasks[0]);
  const where = spokenPlace(plan, preview, target);
  return preview.tasks.length > 1
    ? `${preview.name}: ${task?.name ?? "first"} ${where}.`
    : `${task?.name ?? "Task"} ${where}.`;
}

function spokenPlace(plan: Plan, { schedule, tasks }: Preview, target: Target): string {
  if (target.at === "bench") return "on the bench";
  if (target.at === "place") return placeWords(plan, target.place);
  const crew = schedule.placements.find((one) => one.task === tasks[0])?.crew ?? [];
  const who = crew.length === 0 ? "" : `, ${crew.map((member) => crewName(plan, member)).join(" and ")}`;
  return `at ${clock(target.startS)}${who}`;
}

/** Of new breaches, and of what gets worse, so many are said in full. */
const IN_FULL = 2;

/** What a move breaks, strains, or makes worse. */
function spokenHarm({ gained, worse }: Preview["difference"]): readonly string[] {
  if (gained.length + worse.length === 0) return ["Breaks nothing new."];
  const breaches = gained.filter((finding) => finding.level === "breach");
  const tight = gained.filter((finding) => finding.level === "tight").length;
  const more = breaches.length - IN_FULL;
  const named = worse.toSorted((a, b) => rank(a) - rank(b)).slice(0, IN_FULL);
  const unnamed = worse.length - named.length;
  return [
    ...breaches.slice(0, IN_FULL).map(({ sentence }) => sentence),
    ...(more > 0 ? [`${counted(more, "more new breach", "more new breaches")}.`] : []),
    ...(tight > 0 ? [`${counted(tight, "new tight finding")}.`] : []),
    ...named.map(
      (shift) =>
        `${rank(shift) === 0 ? "A breach" : "What is tight"} is ${worseWords(shift)}: ${shift.finding.sentence}`,
    ),
    ...(unnamed > 0 ? [`${counted(unnamed, "more", "more")} worse.`] : []),
  ];
}

/** What a move mends or eases, and its worth. */
function spokenGain({ eased, lost, score }: Preview["difference"]): readonly string[] {
  return [
    ...(eased.length > 0 ? [`${counted(eased.length, "finding")} better.`] : []),
    ...(lost.length > 0 ? [`${counted(lost.length, "finding")} gone.`] : []),
    ...(score.worth !== 0 ? [`Worth ${signed(score.worth)}.`] : []),
  ];
}

/** Breaches are said first. */
function rank({ finding }: Shift): number {
  return finding.level === "breach" ? 0 : 1;
}

const STUCK_WORDS: Readonly<Record<Stuck["why"], string>> = {
  pinned: "it is pinned",
  earlier: "its link would have it begin earlier",
  circle: "its links and the order push each other in a circle, so nothing slides",
};

/** Why an other cannot slide, in a sentence; null when all can. */
export function stuckWords(plan: Plan, stuck: readonly Stuck[]): string | null {
  const [first] = stuck;
  if (!first) return null;
  const more = stuck.length > 1 ? `; ${counted(stuck.length - 1, "more", "more")} cannot either` : "";
  return `${taskName(plan, first.task)} cannot slide: ${STUCK_WORDS[first.why]}${more}.`;
}

/** The worst margin in words. */
function spokenMargin(plan: Plan, verdict: Verdict): string {
  const worst = worstMargin(verdict);
  return worst
    ? `Worst margin ${percent(verdict.score.worstMargin / 10_000, "down")}${isWorstAssumed(plan, verdict) ? ` ${ASSUMED}` : ""}, ${marginCause(plan, worst)}.`
    : "Nobody goes out.";
}

/** The day in one breath: after a step, an undo, a pack. */
export function spokenDay(plan: Plan, verdict: Verdict): string {
  const { breaches, mustLeftOut } = verdict.score;
  const must =
    mustLeftOut === 0 ? "all must-do tasks placed" : `${counted(mustLeftOut, "must-do task")} left out`;
  return `${counted(breaches, "breach", "breaches")}, ${must}. ${spokenMargin(plan, verdict)}`;
}
