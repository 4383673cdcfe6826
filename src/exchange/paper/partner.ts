import type { Outing, SeparationTrack, Stretch, Verdict } from "../../answers/index.ts";
import type { CrewMember, Plan } from "../../plan/index.ts";
import { bearing, clock, metres, taskNumber } from "../../words/index.ts";
import { type CrewEva, placeName, type Stop } from "./crewday.ts";
import { distanceM, headingDeg } from "./bearings.ts";

/** Where everybody else outside is while a task is done: what, where, how far, until when. */
export function partnerLines(
  plan: Plan,
  verdict: Verdict,
  part: CrewEva,
  stop: Stop,
): (readonly [string, string])[] {
  return part.others.map((other) => [other.name, whereIs(plan, verdict, part, stop, other)] as const);
}

function whereIs(plan: Plan, verdict: Verdict, part: CrewEva, stop: Stop, other: CrewMember): string {
  if (stop.crew.includes(other.id)) return "here, with you";
  const outing = verdict.outings.find((one) => one.eva === part.eva.id && one.crew === other.id);
  const now = outing && stretchAt(outing, stop.startS);
  if (!outing || !now) return "where they are is not known";
  const later = outing.stretches.slice(outing.stretches.indexOf(now) + 1);
  const there = now.path.at(-1);
  const gone = later.find((one) => one.path.at(-1) !== there || one.kind === "ingress");
  const stay = gone ? later.slice(0, later.indexOf(gone)) : later;
  const untilS = gone?.span.startS ?? now.span.endS;
  const untilWords = clock(untilS, "down");
  const next = untilS < stop.endS ? gone : undefined;
  const awayM = now.path.length === 1 ? distanceM(plan, stop.task.place, there) : null;
  return [
    ...doing(plan, now, stay, stop, awayM),
    ...far(plan, stop, there, awayM),
    // Who does not stay where they arrive goes on at their arrival.
    ...(untilS < stop.endS && !(now.kind === "traverse" && untilWords === clock(now.span.endS, "up"))
      ? [`until ${untilWords}`]
      : []),
    ...(next === undefined || next.kind === "ingress"
      ? []
      : [`then to ${placeName(plan, next.path.at(-1))}`]),
    ...apart(verdict.separation, part, stop, other, awayM),
  ].join(", ");
}

function stretchAt({ stretches }: Outing, atS: number): Stretch | undefined {
  return stretches.find(({ span }) => span.startS <= atS && atS < span.endS);
}

/** What they do during the task and where, or that they are on their way. `awayM`: how far they are; null where they move. */
function doing(
  plan: Plan,
  now: Stretch,
  stay: readonly Stretch[],
  stop: Stop,
  awayM: number | null,
): string[] {
  const [from, to] = [now.path[0], now.path.at(-1)].map((id) => placeName(plan, id));
  if (now.kind === "egress" || now.kind === "ingress") return ["at the hatch"];
  if (now.kind === "traverse") return [`on the way to ${to}, there ${clock(now.span.endS, "up")}`];
  const numbers = (some: readonly Stretch[]): string =>
    some
      .flatMap(({ task, span }) => (task !== null && span.startS < stop.endS ? [taskNumber(plan, task)] : []))
      .join(", ");
  if (now.path.length > 1) {
    const then = numbers(stay);
    return [`${numbers([now])} ${from} to ${to}`, ...(then === "" ? [] : [`then ${then} there`])];
  }
  const where = awayM !== null && awayM < SAME_M ? "here" : `at ${to}`;
  return [`${numbers([now, ...stay])} ${where}`.trimStart()];
}

/** Nearer than this is here. */
const SAME_M = 0.5;

/** How far they are and in which direction when the task begins, where they stay. */
function far(plan: Plan, stop: Stop, there: string | undefined, awayM: number | null): string[] {
  if (awayM === null || awayM < SAME_M) return [];
  return [metres(awayM, "up"), bearing(headingDeg(plan, stop.task.place, there))];
}

/** The most that they are apart during the task, where that is more than what is said of its beginning. */
function apart(
  tracks: readonly SeparationTrack[],
  part: CrewEva,
  stop: Stop,
  other: CrewMember,
  awayM: number | null,
): string[] {
  const track = tracks.find(
    (one) => one.eva === part.eva.id && one.crew.includes(part.member.id) && one.crew.includes(other.id),
  );
  if (!track) return [];
  const inside = track.points
    .filter(({ atS }) => stop.startS <= atS && atS <= stop.endS)
    .map(({ value }) => value);
  const most = Math.max(0, ...inside, valueAt(track, stop.startS), valueAt(track, stop.endS));
  return most > (awayM ?? 0) + 1 ? [`most apart ${metres(most, "up")}`] : [];
}

/** A course's value between its points. */
function valueAt({ points }: SeparationTrack, atS: number): number {
  const after = points.findIndex((one) => one.atS >= atS);
  const [a, b] = [points[after - 1], points[after]];
  if (!b) return 0;
  if (!a || b.atS === a.atS) return b.value;
  return a.value + ((b.value - a.value) * (atS - a.atS)) / (b.atS - a.atS);
}
