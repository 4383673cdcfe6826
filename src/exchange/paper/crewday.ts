import type {
  Finding,
  Leave,
  Limit,
  Outing,
  PrintedDay,
  Rest,
  Stretch,
  Verdict,
} from "../../answers/index.ts";
import { after, between, type Duration, duration, type Instant } from "../../kernel/index.ts";
import {
  type CrewMember,
  type Eva,
  type Placement,
  type Plan,
  suitOn,
  suitsOf,
  type Task,
  tasksById,
} from "../../plan/index.ts";
import { arePlaced } from "../../words/index.ts";
import { limitGiven } from "./givenstocks.ts";
import { legible } from "./glyphs.ts";
import { type WalkBack, walkBackOver } from "./walkback.ts";

/** What one crew member's paper says, taken from the plan's own schedule and the verdict on it. */

/** One task of one crew member. */
export interface Stop {
  readonly task: Task;
  readonly startS: Instant;
  readonly endS: Instant;
  /** When to leave the place before, as the judge has tested it; null when the way is not known. */
  readonly leave: Leave | null;
  /** Walking time from the previous place; 0 when already there, null when not known. */
  readonly wayS: Duration | null;
  /** Where the crew member comes from. */
  readonly from: string;
  readonly place: string;
  /** Where it ends, when that is elsewhere. */
  readonly endPlace: string | null;
  /** Ids of all who take part. */
  readonly crew: readonly string[];
  /** The rest that the work limit needs before it. */
  readonly rest: Rest | null;
  /** The longest from anywhere it leads. */
  readonly walkBack: WalkBack;
  /** Breaches that name this task. */
  readonly breaches: readonly Finding[];
}

/** One crew member on one EVA. */
export interface CrewEva {
  readonly eva: Eva;
  readonly member: CrewMember;
  readonly others: readonly CrewMember[];
  /** The suit to be worn, where it is not plain which. */
  readonly suit: string | null;
  /** Null when the verdict does not say. */
  readonly outing: Outing | null;
  readonly egressS: Instant | null;
  /** Planned ingress complete. */
  readonly ingressS: Instant | null;
  /**
   * Ingress complete no later than this, and what sets it; the EVA's own latest where the verdict does not say. Null where it rests on
   * what nobody has given.
   */
  readonly limit: Limit | null;
  /** Walking time home after the last task; null when not known. */
  readonly homewardS: Duration | null;
  /** The rest that the work limit needs at the lander before ingress. */
  readonly homeRest: Rest | null;
  readonly stops: readonly Stop[];
}

/** The EVAs that take place with `member`, by egress. */
export function crewEvas(plan: Plan, verdict: Verdict, day: PrintedDay, member: CrewMember): CrewEva[] {
  return plan.evas
    .filter((eva) => goesOut(plan, eva, member))
    .map((eva) => crewEva(plan, verdict, day, member, eva))
    .sort((a, b) => orderOf(a) - orderOf(b));
}

/** The name of the one called `id` in a list; where paper cannot show all of it, its id as well. */
export function nameOf(list: readonly { readonly id: string; readonly name: string }[], id: string): string {
  const found = list.find((one) => one.id === id);
  return found ? legible(found.name, id) : id;
}

/** With whom a task is done by who is out on an EVA: `with EV2`, `ALONE`; empty where nobody else is out. */
export function companyOf(plan: Plan, { member, others }: CrewEva, { crew }: Stop): string {
  const along = crew.filter((id) => id !== member.id).map((id) => nameOf(plan.crew, id));
  if (along.length > 0) return `with ${along.join(", ")}`;
  return others.length > 0 ? "ALONE" : "";
}

/** A task's name, legible. */
export function taskName(task: Task): string {
  return legible(task.name, task.id);
}

/** A place's name; the lander's for none. */
export function placeName(plan: Plan, id: string | undefined): string {
  const lander = plan.site.places.find((place) => place.kind === "lander");
  return nameOf(plan.site.places, id ?? lander?.id ?? "lander");
}

function goesOut(plan: Plan, eva: Eva, member: CrewMember): boolean {
  const placed = plan.schedule.placements.filter((placement) => placement.eva === eva.id);
  if (placed.length === 0) return false;
  return eva.crew.includes(member.id) || placed.some((placement) => placement.crew.includes(member.id));
}

function orderOf(part: CrewEva): number {
  return part.egressS ?? part.stops[0]?.startS ?? part.eva.earliestEgressS;
}

function crewEva(plan: Plan, verdict: Verdict, day: PrintedDay, member: CrewMember, eva: Eva): CrewEva {
  const outing = verdict.outings.find((one) => one.eva === eva.id && one.crew === member.id) ?? null;
  const egressS = outing ? (day.egressS.get(eva.id) ?? outing.span.startS) : null;
  const stops = stopsOf(plan, verdict, member, eva, outing, day);
  const last = stops.at(-1);
  return {
    eva,
    member,
    others: plan.crew.filter((one) => one.id !== member.id && eva.crew.includes(one.id)),
    suit: suitToSay(plan, eva, member),
    outing,
    egressS,
    ingressS: outing ? (day.ingressS.get(eva.id) ?? outing.span.endS) : null,
    limit: limitGiven(
      plan,
      eva,
      (outing ? day.limit.get(eva.id) : undefined) ?? {
        ingressS: eva.latestIngressS,
        by: { kind: "latest-ingress" },
      },
    ),
    homewardS: last && outing ? wayAfter(plan, outing.stretches, last.task.id) : null,
    homeRest: restBefore(day, eva, member, null),
    stops,
  };
}

/** The suit that somebody wears on an EVA, where it is not plain which; null where it is their own, always, and nobody else's. */
export function suitToSay(plan: Plan, eva: Eva, { id, suit }: CrewMember): string | null {
  const worn = suitOn(plan, eva, id);
  const isPlain =
    worn?.id === suit &&
    suitsOf(plan, id).length === 1 &&
    !plan.crew.some((other) => other.id !== id && suitsOf(plan, other.id).includes(worn));
  return worn === null || isPlain ? null : nameOf(plan.suits, worn.id);
}

/** The rest of `member` on `eva` that comes before a task, or before ingress. */
function restBefore(day: PrintedDay, eva: Eva, member: CrewMember, task: string | null): Rest | null {
  return day.rests.find((one) => one.eva === eva.id && one.crew === member.id && one.before === task) ?? null;
}

/** Where a rest is taken. */
export function restPlace(plan: Plan, rest: Rest): string {
  return rest.places.map((id) => placeName(plan, id)).join(" to ");
}

function stopsOf(
  plan: Plan,
  verdict: Verdict,
  member: CrewMember,
  eva: Eva,
  outing: Outing | null,
  day: PrintedDay,
): Stop[] {
  const tasks = tasksById(plan);
  const mine = plan.schedule.placements
    .filter((placement) => placement.eva === eva.id && placement.crew.includes(member.id))
    .sort((a, b) => a.startS - b.startS || (a.task < b.task ? -1 : 1));
  let at = placeName(plan, undefined);
  return mine.flatMap((placement) => {
    const task = tasks.get(placement.task);
    if (!task) return [];
    const rest = restBefore(day, eva, member, task.id);
    const leave = day.leaves.get(member.id)?.get(task.id) ?? null;
    const stop = { ...stopOf(plan, verdict, member, placement, task, outing, at), leave, rest };
    at = stop.endPlace ?? stop.place;
    return [stop];
  });
}

function stopOf(
  plan: Plan,
  verdict: Verdict,
  member: CrewMember,
  placement: Placement,
  task: Task,
  outing: Outing | null,
  from: string,
): Omit<Stop, "leave" | "rest"> {
  const span = { startS: placement.startS, endS: after(placement.startS, task.duration.likelyS) };
  return {
    task,
    ...span,
    wayS: outing ? wayBefore(plan, outing.stretches, task.id) : null,
    from,
    place: placeName(plan, task.place),
    endPlace:
      task.endPlace === undefined || task.endPlace === task.place ? null : placeName(plan, task.endPlace),
    crew: placement.crew,
    walkBack: arePlaced(plan, [task.place, task.endPlace ?? task.place])
      ? walkBackOver(verdict, placement.eva, member.id, task.id, span)
      : { kind: "unknown" },
    breaches: verdict.findings.filter(
      (finding) =>
        finding.level === "breach" &&
        finding.subjects.some((subject) => subject.kind === "task" && subject.id === task.id),
    ),
  };
}

/** Walking time straight before a task: its traverse, whatever waiting lies between; null when that is not known. */
function wayBefore(plan: Plan, stretches: readonly Stretch[], task: string): Duration | null {
  const at = stretches.findIndex((stretch) => stretch.task === task);
  return at < 0 ? null : walked(plan, stretches.slice(0, at).reverse());
}

function wayAfter(plan: Plan, stretches: readonly Stretch[], task: string): Duration | null {
  const at = stretches.findIndex((stretch) => stretch.task === task);
  return at < 0 ? null : walked(plan, stretches.slice(at + 1));
}

function walked(plan: Plan, stretches: readonly Stretch[]): Duration | null {
  let total = 0;
  for (const stretch of stretches) {
    if (stretch.kind !== "traverse" && stretch.kind !== "wait") break;
    if (stretch.kind === "wait") continue;
    const seconds = between(stretch.span.startS, stretch.span.endS);
    if (seconds === 0 && !samePoint(plan, stretch.path[0], stretch.path.at(-1))) return null;
    total += seconds;
  }
  return duration(total);
}

/** A traverse that takes no time between two points stands for a way that does not exist. */
function samePoint(plan: Plan, a: string | undefined, b: string | undefined): boolean {
  const [from, to] = [a, b].map((id) => plan.site.places.find((place) => place.id === id));
  return from !== undefined && to !== undefined && from.eastM === to.eastM && from.northM === to.northM;
}
