import type { Shift, Verdict } from "../../answers/index.ts";
import { type Edge, NO_PLACE, REMOTE, type Stuck, type Target } from "../../editor/index.ts";
import type { Plan } from "../../plan/index.ts";
import { type Preview, worseWords } from "../../session/index.ts";
import { clock, counted, crewName, percent, placeName, signed, taskName } from "../../words/index.ts";
import { marginCause, worstMargin } from "../words.ts";

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
export function setDownWords(plan: Plan, target: Target, task: string, edge: Edge | null): string {
  const crew = plan.schedule.placements.find((one) => one.task === task)?.crew ?? [];
  if (target.at !== "line" || crew.length === 0) return targetWords(plan, target);
  const who = crew.map((member) => crewName(plan, member)).join(" and ");
  const when = clock(target.startS);
  return edge === null
    ? `${when}, ${who}`
    : `${when}, where it now ${edge === "end" ? "ends" : "starts"}, ${who}`;
}

/** What a move costs, in one breath, for those who listen. */
export function spokenCost(plan: Plan, preview: Preview, target: Target, slides = 0): string {
  const { gained, lost, worse, eased, score } = preview.difference;
  const task = plan.tasks.find((one) => one.id === preview.tasks[0]);
  const many = preview.tasks.length > 1;
  const crew = preview.schedule.placements.find((one) => one.task === task?.id)?.crew ?? [];
  const who = crew.length === 0 ? "" : `, ${crew.map((member) => crewName(plan, member)).join(" and ")}`;
  const where =
    target.at === "bench"
      ? "on the bench"
      : target.at === "place"
        ? placeWords(plan, target.place)
        : `at ${clock(target.startS)}${who}`;
  const said = [
    many ? `${preview.name}: ${task?.name ?? "first"} ${where}.` : `${task?.name ?? "Task"} ${where}.`,
  ];
  if (slides > 0) said.push(`${counted(slides, "other slides", "others slide")}.`);
  const breaches = gained.filter((finding) => finding.level === "breach");
  for (const finding of breaches.slice(0, 2)) said.push(finding.sentence);
  if (breaches.length > 2)
    said.push(`${counted(breaches.length - 2, "more new breach", "more new breaches")}.`);
  const tight = gained.filter((finding) => finding.level === "tight");
  if (tight.length > 0) said.push(`${counted(tight.length, "new tight finding")}.`);
  const told = worse.toSorted((a, b) => rank(a) - rank(b)).slice(0, 2);
  for (const shift of told)
    said.push(
      `${rank(shift) === 0 ? "A breach" : "What is tight"} is ${worseWords(shift)}: ${shift.finding.sentence}`,
    );
  if (worse.length > told.length) said.push(`${counted(worse.length - told.length, "more", "more")} worse.`);
  if (gained.length + worse.length === 0) said.push("Breaks nothing new.");
  if (eased.length > 0) said.push(`${counted(eased.length, "finding")} better.`);
  if (lost.length > 0) said.push(`${counted(lost.length, "finding")} gone.`);
  if (score.worth !== 0) said.push(`Worth ${signed(score.worth)}.`);
  said.push(spokenMargin(plan, preview.verdict));
  return said.join(" ");
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
    ? `Worst margin ${percent(verdict.score.worstMargin / 10_000, "down")}, ${marginCause(plan, worst)}.`
    : "Nobody goes out.";
}

/** The day in one breath: after a step, an undo, a pack. */
export function spokenDay(plan: Plan, verdict: Verdict): string {
  const { breaches, mustLeftOut } = verdict.score;
  const must =
    mustLeftOut === 0 ? "all must-do tasks placed" : `${counted(mustLeftOut, "must-do task")} left out`;
  return `${counted(breaches, "breach", "breaches")}, ${must}. ${spokenMargin(plan, verdict)}`;
}
