import { isEqual } from "../../kernel/index.ts";
import type { Outing, SeparationTrack, Stretch, Verdict } from "../../answers/index.ts";
import type { CrewMember, Plan } from "../../plan/index.ts";
import { arePlaced, bearing, clock, metres, taskNumber } from "../../words/index.ts";
import { type CrewEva, placeName, type Stop } from "./crewday.ts";
import { distanceM, headingDeg } from "./bearings.ts";
import type { Known } from "./known.ts";

/** The judge's word on the day with everybody leaving at once, and with everybody leaving as late as printed. */
type Both = Pick<Known, "plan" | "verdict" | "played">;

/** Where everybody else outside is while a task is done: what, where, how far, until when; from when to when where paper leaves it to them. */
export function partnerLines(known: Both, part: CrewEva, stop: Stop): (readonly [string, string])[] {
  return part.others.map((other) => [other.name, whereIs(known, part, stop, other)] as const);
}

function whereIs(known: Both, part: CrewEva, stop: Stop, other: CrewMember): string {
  if (stop.crew.includes(other.id)) return "here, with you";
  const { plan } = known;
  const [soonest, latest] = [known.verdict, known.played].map((verdict) =>
    seenIn(verdict, part, stop, other),
  );
  if (!soonest || !latest) return "where they are is not known";
  const { now, stay } = soonest;
  const isSure = now.kind === latest.now.kind && isEqual(now.path, latest.now.path);
  const awayM = isSure && now.path.length === 1 ? distanceM(plan, stop.task.place, now.path[0]) : null;
  const clauses = isSure
    ? [...doing(plan, now, stay, stop, awayM, latest.now), ...far(plan, stop, now.path.at(-1), awayM)]
    : [between(plan, soonest, latest)];
  const isKnown = arePlaced(plan, [
    stop.task.place,
    stop.task.endPlace ?? stop.task.place,
    ...[soonest, latest].flatMap((one) => [...one.now.path, ...(one.gone?.path ?? [])]),
  ]);
  const most = !isKnown ? 0 : mostApart([known.verdict, known.played], part, stop, other);
  return [
    ...clauses,
    ...goingOn(plan, stop, soonest, isSure ? latest : arrived(latest, soonest)),
    ...(most > (awayM ?? 0) + 1 ? [`most apart ${metres(most, "up")}`] : []),
  ].join(", ");
}

/** What somebody is at, and what they still do where that ends before they go on. */
interface Seen {
  readonly outing: Outing;
  readonly now: Stretch;
  /** What follows there. */
  readonly stay: readonly Stretch[];
  /** What takes them away from there. */
  readonly gone: Stretch | undefined;
  readonly untilS: number;
}

function seenIn(verdict: Verdict, part: CrewEva, stop: Stop, other: CrewMember): Seen | null {
  const outing = verdict.outings.find((one) => one.eva === part.eva.id && one.crew === other.id);
  const now = outing?.stretches.find(({ span }) => span.startS <= stop.startS && stop.startS < span.endS);
  return outing && now ? seenFrom(outing, now) : null;
}

function seenFrom(outing: Outing, now: Stretch): Seen {
  const later = outing.stretches.slice(outing.stretches.indexOf(now) + 1);
  const there = now.path.at(-1);
  const gone = later.find((one) => one.path.at(-1) !== there || one.kind === "ingress");
  const stay = gone ? later.slice(0, later.indexOf(gone)) : later;
  return { outing, now, stay, gone, untilS: gone?.span.startS ?? now.span.endS };
}

/** Who leaves late, from where they come to the place that they have left for, or have come to, who leaves at once. */
function arrived({ outing, now }: Seen, { now: sooner }: Seen): Seen {
  const later = outing.stretches.slice(outing.stretches.indexOf(now));
  return seenFrom(outing, later.find((one) => one.path.at(-1) === sooner.path.at(-1)) ?? now);
}

/** Where somebody may be who has left if they left at once, and who has not come yet if they leave as late as printed. */
function between(plan: Plan, soonest: Seen, latest: Seen): string {
  const [from, to] = [latest.now.path[0], soonest.now.path.at(-1)];
  const there = arrived(latest, soonest).now;
  const way = `on the way to ${placeName(plan, to)}, there by ${clock(there.span.endS, "up")}`;
  return latest.now.kind === "traverse" || from === to ? way : `at ${placeName(plan, from)} or ${way}`;
}

/** Until when somebody stays, and where to then, where that is before the task is over. */
function goingOn(plan: Plan, stop: Stop, soonest: Seen, latest: Seen): string[] {
  if (soonest.untilS >= stop.endS) return [];
  const [fromS, untilS] = [soonest.untilS, latest.untilS].map((atS) => clock(atS, "down"));
  // Who does not stay where they arrive goes on at their arrival.
  const passes = [soonest, latest].every(
    (one) => one.now.kind === "traverse" && clock(one.untilS, "down") === clock(one.now.span.endS, "up"),
  );
  const { gone } = soonest;
  return [
    ...(passes ? [] : [`until ${fromS === untilS ? fromS : `${fromS} to ${untilS}`}`]),
    ...(gone === undefined || gone.kind === "ingress"
      ? []
      : [`then to ${placeName(plan, gone.path.at(-1))}`]),
  ];
}

/** What they do during the task and where, or that they are on their way. `awayM`: how far they are; null where they move; `latest`: leaving late. */
function doing(
  plan: Plan,
  now: Stretch,
  stay: readonly Stretch[],
  stop: Stop,
  awayM: number | null,
  latest: Stretch,
): string[] {
  const [from, to] = [now.path[0], now.path.at(-1)].map((id) => placeName(plan, id));
  if (now.kind === "egress" || now.kind === "ingress") return ["at the hatch"];
  const [thereS, lateS] = [now, latest].map(({ span }) => clock(span.endS, "up"));
  if (now.kind === "traverse") return [`on the way to ${to}, there ${thereS === lateS ? "" : "by "}${lateS}`];
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

/** The most that the two are apart during the task, m, at either end of when the other may leave; 0 where nothing is known of it. */
function mostApart(verdicts: readonly Verdict[], part: CrewEva, stop: Stop, other: CrewMember): number {
  const tracks = verdicts.flatMap(({ separation }) =>
    separation.filter(
      (one) => one.eva === part.eva.id && one.crew.includes(part.member.id) && one.crew.includes(other.id),
    ),
  );
  return Math.max(0, ...tracks.map((track) => mostBetween(track, stop.startS, stop.endS)));
}

/** The most of a course from one moment to another: where it jumps there, of each only the side that lies between them. */
function mostBetween({ points }: SeparationTrack, fromS: number, toS: number): number {
  const first = points.findLastIndex(({ atS }) => atS <= fromS);
  const last = points.findIndex(({ atS }) => atS >= toS);
  const inside = points.slice(first + 1, last < 0 ? points.length : last).map(({ value }) => value);
  return Math.max(0, ...inside, valueOn(points, first, fromS), valueOn(points, last - 1, toS));
}

/** A course's value between one of its points and the next. */
function valueOn(points: SeparationTrack["points"], at: number, atS: number): number {
  const [a, b] = [points[at], points[at + 1]];
  if (!a || !b) return (a ?? b)?.value ?? 0;
  if (b.atS === a.atS) return b.value;
  return a.value + ((b.value - a.value) * (atS - a.atS)) / (b.atS - a.atS);
}
