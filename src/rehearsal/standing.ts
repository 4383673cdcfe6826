import { duration, instant } from "../kernel/index.ts";
import {
  type Eva,
  type Link,
  type Placement,
  type Plan,
  type Schedule,
  type Task,
  tasksById,
} from "../plan/index.ts";
import type { Rehearsal } from "./call.ts";
import { type Facts, factsOf } from "./facts.ts";
import { homeS } from "./airlock.ts";
import { isMark, type Mark, marksOf, pinAt, unasking } from "./marks.ts";
import { passesLeft, projected, type ProjectedPlacement } from "./projection.ts";
import { betweenOf } from "./stays.ts";
import type { Between } from "./between.ts";
import { type RehearsedWays, wayS } from "./walking.ts";

/** How a rehearsed day stands at a moment. */
export interface DayStanding {
  readonly nowS: number;
  readonly facts: Facts;
  /** What is done, under way and to come, in order of start. */
  readonly placements: readonly ProjectedPlacement[];
  /** The plan as the day has gone and would go on: to be judged with its own schedule. */
  readonly plan: Plan;
  /** The same for the packer: what is past is fixed and its own conditions are waived, what is to come may not begin before now. */
  readonly ahead: Plan;
}

/** How the day stands at the rehearsal's clock. */
export function standingOf(plan: Plan, rehearsal: Rehearsal, ways: RehearsedWays): DayStanding {
  const { nowS, calls } = rehearsal;
  const facts = factsOf(plan, calls);
  const between = betweenOf(plan, calls, ways);
  const placements = projected(plan, facts, between, nowS).toSorted((a, b) => a.startS - b.startS);
  const marks = marksOf(plan, facts, placements, between);
  const judged = judgedPlan(plan, facts, placements, between, marks);
  return {
    nowS,
    facts,
    placements,
    plan: judged,
    // Asked for when a new plan is, and not in every tick of the clock.
    get ahead() {
      return aheadPlan(judged, facts, placements, between, nowS);
    },
  };
}

/** The plan with everything that the calls say in it. */
function judgedPlan(
  plan: Plan,
  facts: Facts,
  placements: readonly ProjectedPlacement[],
  { site }: Between,
  marks: readonly Mark[],
): Plan {
  const known = new Map(placements.map((placement) => [placement.task, placement]));
  const bare = placements.map(({ task, eva, crew, startS }): Placement => ({
    task,
    eva,
    crew,
    startS: instant(startS),
  }));
  return {
    ...plan,
    // What no call touches stays the same object: what is worked out from it is then not worked out anew.
    ...(site === plan.site ? {} : { site: passable(site, marks) }),
    ...(facts.lostPasses.size > 0 ? { stay: { ...plan.stay, relayPasses: passesLeft(plan, facts) } } : {}),
    ...(facts.backByS.size > 0 ? { evas: plan.evas.map((eva) => backBy(eva, facts)) } : {}),
    ...(facts.broken.size > 0
      ? {
          equipment: plan.equipment.map((one) => ({
            ...one,
            count: Math.max(0, one.count - (facts.broken.get(one.id) ?? 0)),
          })),
        }
      : {}),
    tasks: [
      ...plan.tasks.map((task) => asItGoes(task, known.get(task.id), facts)),
      ...marks.map((one) => one.task),
    ],
    schedule: { placements: [...bare, ...marks.map((one) => one.placement)] } satisfies Schedule,
    variants: [],
  };
}

/** The site in which what marks time outside may be anywhere: who walks past heat does not work there. */
function passable(site: Plan["site"], marks: readonly Mark[]): Plan["site"] {
  const exempt = marks.map(({ task }) => task.id);
  const keepOuts = site.keepOuts.map((one) => ({ ...one, exemptTasks: [...one.exemptTasks, ...exempt] }));
  return { ...site, keepOuts };
}

function backBy(eva: Eva, facts: Facts): Eva {
  const byS = facts.backByS.get(eva.id);
  return byS === undefined || byS >= eva.latestIngressS ? eva : { ...eva, latestIngressS: instant(byS) };
}

/** A task with the length it had or is expected to have, and its old pin only while it is to come. */
function asItGoes(task: Task, placement: ProjectedPlacement | undefined, facts: Facts): Task {
  const lengthS = placement ? placement.endS - placement.startS : facts.lengthS.get(task.id)!;
  const { lowS, highS } = task.duration;
  const over = placement && placement.state !== "to come";
  const length: Task["duration"] =
    over || (lowS === undefined && highS === undefined)
      ? { likelyS: duration(lengthS) }
      : {
          likelyS: duration(lengthS),
          ...(lowS === undefined ? {} : { lowS: duration(Math.min(lowS, lengthS)) }),
          ...(highS === undefined ? {} : { highS: duration(Math.max(highS, lengthS)) }),
        };
  if (!over) return { ...task, duration: length };
  // What broke after it was done was there for it.
  const equipment =
    placement.state === "done"
      ? task.equipment.filter((one) => !facts.broken.has(one.equipment))
      : task.equipment;
  return { ...task, duration: length, pin: pinAt(placement), equipment };
}

/**
 * What the packer may still change. What has begun is pinned and asks for nothing more; what was given up is not there; the rest
 * may not begin before now.
 */
function aheadPlan(
  plan: Plan,
  facts: Facts,
  placements: readonly ProjectedPlacement[],
  between: Between,
  nowS: number,
): Plan {
  const room = roomOf(plan, placements, between.ways);
  const evas = plan.evas.map((eva) => asItWent(eva, facts, homeS(plan, eva, placements, between)));
  const past = new Set([
    ...placements.filter((placement) => placement.state !== "to come").map((placement) => placement.task),
    ...plan.tasks.filter((task) => isMark(task.id)).map((task) => task.id),
  ]);
  const soonestS = Math.max(nowS, facts.holdS);
  const tasks = plan.tasks.filter((task) => !facts.leftOut.has(task.id));
  const there = new Set(tasks.map((task) => task.id));
  return {
    ...plan,
    evas,
    tasks: tasks.map((task) =>
      past.has(task.id) ? settled(task, room, plan.rules.walking.speedMs) : notBefore(task, soonestS, plan),
    ),
    links: plan.links.filter((link) => {
      const [a, b] = endsOf(link);
      return there.has(a) && there.has(b) && !(past.has(a) && past.has(b));
    }),
    groups: plan.groups.map((group) => {
      const left = group.tasks.filter((task) => there.has(task));
      return { ...group, tasks: left, least: Math.min(group.least, left.length) };
    }),
    site: siteWithout(plan.site, there),
  };
}

/** What an EVA may be, so that nothing is wrong with what it was so far and nothing more is put on it once it is over. */
function asItWent(eva: Eva, facts: Facts, backS: number): Eva {
  const outS = facts.outS.get(eva.id);
  if (outS === undefined) return eva;
  const earliestEgressS = instant(Math.min(eva.earliestEgressS, outS));
  const inS = facts.inS.get(eva.id);
  if (inS === undefined) return { ...eva, earliestEgressS };
  const latestIngressS = instant(Math.max(inS, backS));
  const longestS = duration(Math.max(eva.longestS, latestIngressS - outS));
  return { ...eva, earliestEgressS, latestIngressS, longestS };
}

/** The site without heat that never comes, since the task it follows was given up. The same one where nothing changes. */
function siteWithout(site: Plan["site"], there: ReadonlySet<string>): Plan["site"] {
  const known = (task: string): boolean => there.has(task);
  const whole = site.keepOuts.every(
    (one) => (one.afterTask === undefined || known(one.afterTask)) && one.exemptTasks.every(known),
  );
  if (whole) return site;
  const keepOuts = site.keepOuts
    .filter((one) => one.afterTask === undefined || known(one.afterTask))
    .map((one) => ({ ...one, exemptTasks: one.exemptTasks.filter(known) }));
  return { ...site, keepOuts };
}

function endsOf(link: Link): readonly [string, string] {
  return link.type === "lag" ? [link.from.task, link.to.task] : link.tasks;
}

/**
 * How long what has begun may have taken at the most for the way to the next thing that has begun to be walked as planned, s. Who
 * walked faster has no room for all of it: for the packer the work was then so much shorter, and what came of it stays.
 */
function roomOf(
  plan: Plan,
  placements: readonly ProjectedPlacement[],
  ways: RehearsedWays,
): ReadonlyMap<string, number> {
  const tasks = tasksById(plan);
  const begun = placements.filter((placement) => placement.state !== "to come");
  const room = new Map<string, number>();
  for (const member of plan.crew) {
    const own = begun
      .filter((placement) => placement.crew.includes(member.id))
      .toSorted((a, b) => a.startS - b.startS);
    for (const [i, placement] of own.entries()) {
      const next = own[i + 1];
      const from = tasks.get(placement.task);
      const to = next && tasks.get(next.task);
      if (!from || !to || next.eva !== placement.eva) continue;
      const place = from.endPlace ?? from.place;
      const most = Math.max(1, next.startS - wayS(ways, place, to.place) - placement.startS);
      room.set(placement.task, Math.min(room.get(placement.task) ?? Infinity, most));
    }
  }
  return room;
}

/** What has begun asks for nothing that could still be broken. */
function settled(task: Task, room: ReadonlyMap<string, number>, speedMs: number): Task {
  const lengthS = Math.min(task.duration.likelyS, room.get(task.id) ?? Infinity);
  return {
    ...unasking(task),
    // What has been done stays done, whatever a packer would rather do; and it was walked, however short it came to be.
    must: true,
    walkM: task.endPlace === undefined ? Math.min(task.walkM, Math.floor(lengthS * speedMs)) : 0,
    duration: { likelyS: duration(lengthS) },
    crew: { count: task.pin?.crew?.length ?? task.crew.count, named: [] },
  };
}

/** Windows from `soonestS` on; where none is left one that is too short for anything. */
function notBefore(task: Task, soonestS: number, plan: Plan): Task {
  const all = task.windows.length > 0 ? task.windows : [{ startS: instant(0), endS: plan.stay.lengthS }];
  const windows = all
    .filter((one) => one.endS > soonestS)
    .map((one) => ({ startS: instant(Math.max(one.startS, soonestS)), endS: instant(one.endS) }));
  const none = [{ startS: instant(soonestS), endS: instant(soonestS) }];
  return { ...task, windows: windows.length > 0 ? windows : none };
}
