import { type Plan, tasksById } from "../plan/index.ts";
import type { Between, Stay } from "./between.ts";
import type { Call } from "./call.ts";
import { type Facts, factsOf, type Stopped } from "./facts.ts";
import { type Point, pointOn } from "./points.ts";
import { projected } from "./projection.ts";
import { landerOf, type RehearsedWays, wayS } from "./walking.ts";

/** What happened between the tasks, from the calls. */
export function betweenOf(plan: Plan, calls: readonly Call[], ways: RehearsedWays): Between {
  let now: Between = { stays: [], site: plan.site, ways };
  calls.forEach((call, k) => {
    if (!CHANGES.has(call.kind)) return;
    const before = factsOf(plan, calls.slice(0, k));
    const after = factsOf(plan, calls.slice(0, k + 1));
    const was = headings(plan, before, now, call.atS);
    for (const [task, work] of after.stopped)
      if (!before.stopped.has(task)) now = stopped(plan, now, task, work);
    const is = headings(plan, after, now, call.atS);
    for (const [crew, heading] of was) {
      const next = is.get(crew);
      if (next && next.to !== heading.to) now = turned(now, crew, heading, call.atS);
    }
  });
  return now;
}

/** Calls that may take away what somebody is walking to. */
const CHANGES: ReadonlySet<Call["kind"]> = new Set(["left-out", "spoilt", "closed", "broken", "replanned"]);

/**
 * Work that does not count as done: its crew are where it ends when it was worked at to its end, else where it begins, or on its way
 * where it ends elsewhere.
 */
function stopped(
  plan: Plan,
  now: Between,
  id: string,
  { placement: { eva, crew }, startS, endS, whole }: Stopped,
): Between {
  const task = plan.tasks.find((one) => one.id === id);
  if (!task) return now;
  const { place, endPlace } = task;
  const stay = { task: id, eva, crew, place, startS, endS, whole };
  if (whole) return added(now, null, { ...stay, endPlace: endPlace ?? place });
  if (place === undefined || endPlace === undefined || place === endPlace)
    return added(now, null, { ...stay, endPlace: place });
  // So much of the way as of the work that was planned.
  const part = (endS - startS) / Math.max(1, task.duration.likelyS);
  const goneS = Math.ceil(part * wayS(now.ways, place, endPlace));
  if (goneS === 0) return added(now, null, { ...stay, endPlace: place });
  const point = pointOn(now.ways, now.site.places, place, endPlace, goneS);
  return added(now, point, { ...stay, endPlace: point?.place.id ?? endPlace });
}

/** Somebody on their way stops where they are, or where they have come to. */
function turned(now: Between, crew: string, { eva, from, to, leftS }: Heading, atS: number): Between {
  const { ways: walks, site } = now;
  if (from === undefined || to === undefined || atS <= leftS) return now;
  if (from !== to && walks.secondsS(from, to) === null) return now;
  const point = from === to ? null : pointOn(walks, site.places, from, to, atS - leftS);
  const place = point?.place.id ?? to;
  return added(now, point, {
    task: null,
    eva,
    crew: [crew],
    place,
    endPlace: place,
    startS: atS,
    endS: atS,
    whole: false,
  });
}

function added(now: Between, point: Point | null, stay: Stay): Between {
  const stays = [...now.stays, stay];
  if (!point) return { ...now, stays };
  const places = [...now.site.places, point.place];
  const legs = [...now.site.legs, ...point.legs];
  return { stays, site: { ...now.site, places, legs }, ways: now.ways.withMore([point.place], point.legs) };
}

/** Somebody who is not at work: where they were last, when they left, and what they walk to. */
interface Heading {
  readonly eva: string;
  readonly from: string | undefined;
  readonly to: string | undefined;
  readonly leftS: number;
}

/** Who outside is on their way or waits at `nowS`, as the day would go on. */
function headings(plan: Plan, facts: Facts, between: Between, nowS: number): Map<string, Heading> {
  const tasks = tasksById(plan);
  const lander = landerOf(plan);
  const placements = projected(plan, facts, between, nowS);
  const found = new Map<string, Heading>();
  for (const eva of plan.evas) {
    const outS = facts.outS.get(eva.id);
    if (outS === undefined || facts.inS.has(eva.id)) continue;
    for (const crew of eva.crew) {
      const own = placements.filter((placement) => placement.eva === eva.id && placement.crew.includes(crew));
      if (own.some(({ state }) => state === "under way")) continue;
      const past = [
        { endS: outS + eva.egressWorkS, at: lander },
        ...own
          .filter(({ state }) => state === "done")
          .map(({ task, endS }) => ({ endS, at: tasks.get(task)?.endPlace ?? tasks.get(task)?.place })),
        ...between.stays
          .filter((stay) => stay.eva === eva.id && stay.crew.includes(crew))
          .map(({ endS, endPlace }) => ({ endS, at: endPlace })),
      ];
      const last = past.reduce((a, b) => (b.endS >= a.endS ? b : a));
      const next = own.filter(({ state }) => state === "to come").toSorted((a, b) => a.startS - b.startS)[0];
      const to = next ? tasks.get(next.task)?.place : lander;
      found.set(crew, { eva: eva.id, from: last.at, to, leftS: last.endS });
    }
  }
  return found;
}
