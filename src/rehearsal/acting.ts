import type { Plan, Task } from "../plan/index.ts";
import { leaveS } from "./airlock.ts";
import type { Between } from "./between.ts";
import type { Facts } from "./facts.ts";
import { type Going, passesLeft, projected, type ProjectedPlacement } from "./projection.ts";
import { restedS } from "./resting.ts";
import { landerOf, type RehearsedWays, wayS } from "./walking.ts";

/**
 * What a crew does that plays a rehearsal by itself, by the rules of the crew on simulated days (O4, O7 to O10) as far as they go by times: what
 * suits have left is not known here, so nobody turns back for a reserve. Every decision rests on what was called by then and on likely
 * durations, never on what was drawn of work that is still under way.
 */

/**
 * What may be begun before it is planned (O7): work with crew whose start nobody fixed, that asks for no sun, and that the plan has without a
 * wait before it: a wait that nothing explains is there on purpose, to rest or to stay together.
 */
export function goingAhead(plan: Plan, facts: Facts, between: Between): Going {
  const free = plan.tasks.filter(
    (task) =>
      task.crew.count > 0 && task.pin?.startS === undefined && !task.sun && !task.light && !task.sunAngle,
  );
  const likely = new Map(plan.tasks.map((task) => [task.id, task.duration.likelyS]));
  const early = new Set<string>();
  const seen = new Set<string>();
  // Each as early as it could be after all others as planned.
  projected(plan, { ...facts, ...NOTHING, lengthS: likely }, between, -Infinity, {
    early: new Set(free.map(({ id }) => id)),
    soonestOutS: new Map(),
    rested: (placement, task, startS) => {
      if (!seen.has(task.id) && startS >= placement.startS) early.add(task.id);
      seen.add(task.id);
      return placement.startS;
    },
  });
  for (const { id } of plan.tasks) if (!free.some((one) => one.id === id)) early.delete(id);
  return {
    early,
    soonestOutS: plannedOutS(plan, facts, between),
    rested: (placement, task, startS, placements) =>
      restedS(plan, facts, between.ways, placement, task, startS, placements),
  };
}

/** When each EVA of the schedule in force goes out as planned, by EVA. */
function plannedOutS(plan: Plan, { schedule }: Facts, { ways }: Between): ReadonlyMap<string, number> {
  return new Map(
    plan.evas.flatMap((eva) => {
      const outS = leaveS(plan, eva, schedule.placements, { ways, stays: [] });
      return outS === Infinity ? [] : [[eva.id, outS] as const];
    }),
  );
}

const NOTHING = {
  began: new Map(),
  ended: new Map(),
  leftOut: new Map(),
  stopped: new Map(),
  outS: new Map(),
  inS: new Map(),
  holdS: -Infinity,
};

/** Ingress complete no later on an EVA: its latest ingress, the longest it may be since egress, and what was called. */
function limitS(plan: Plan, facts: Facts, id: string): number {
  const eva = plan.evas.find((one) => one.id === id);
  if (!eva) return Infinity;
  const outS = facts.outS.get(id);
  return Math.min(
    eva.latestIngressS,
    facts.backByS.get(id) ?? Infinity,
    outS === undefined ? Infinity : outS + eva.longestS,
  );
}

/** The latest moment to leave a task for home, from the farther of its ends (O8); Infinity without crew. */
export function leaveByS(
  plan: Plan,
  facts: Facts,
  ways: RehearsedWays,
  task: Task,
  eva: string | null,
): number {
  const lander = landerOf(plan);
  if (eva === null) return Infinity;
  const home = Math.max(wayS(ways, task.place, lander), wayS(ways, task.endPlace ?? task.place, lander));
  return limitS(plan, facts, eva) - (plan.evas.find((one) => one.id === eva)?.ingressWorkS ?? 0) - home;
}

/**
 * True when `placement`, ready to begin at `nowS`, is rather left out: after its likely time its crew would not be home in time (O4), its window would
 * be over, or needed work ahead that could still be done in time no longer could (O9).
 */
export function isLeftOut(
  plan: Plan,
  facts: Facts,
  between: Between,
  going: Going,
  placement: ProjectedPlacement,
  nowS: number,
): boolean {
  const task = plan.tasks.find((one) => one.id === placement.task);
  if (!task) return false;
  const lengthS = facts.lengthS.get(task.id)!;
  if (placement.startS + lengthS > leaveByS(plan, facts, between.ways, task, placement.eva)) return true;
  if (!isOpen(plan, facts, task, placement.startS, placement.startS + lengthS)) return true;
  const needed = neededBy(plan);
  if (needed.has(task.id)) return false;
  const careful = carefulLengths(plan, facts);
  const without = (out: (id: string) => boolean): number => {
    const leftOut = new Map(facts.leftOut);
    for (const { id } of plan.tasks)
      if (!facts.began.has(id) && !needed.has(id) && out(id)) leftOut.set(id, "left out");
    const day = projected(plan, { ...facts, leftOut, lengthS: careful }, between, nowS, going);
    return day.filter((one) => needed.has(one.task) && isInTime(plan, facts, between.ways, one)).length;
  };
  return without((id) => id !== task.id) < without(() => true);
}

/** True for what is done, and for what is to come inside its window and with the way home left. */
function isInTime(plan: Plan, facts: Facts, ways: RehearsedWays, placement: ProjectedPlacement): boolean {
  if (placement.state === "done") return true;
  const task = plan.tasks.find((one) => one.id === placement.task)!;
  return (
    placement.endS <= leaveByS(plan, facts, ways, task, placement.eva) &&
    isOpen(plan, facts, task, placement.startS, placement.endS)
  );
}

function isOpen(plan: Plan, facts: Facts, task: Task, startS: number, endS: number): boolean {
  const inside = (span: { readonly startS: number; readonly endS: number }): boolean =>
    startS >= span.startS && endS <= span.endS;
  const passes = task.relay && !plan.stay.earthLink ? passesLeft(plan, facts) : null;
  return (task.windows.length === 0 || task.windows.some(inside)) && (passes === null || passes.some(inside));
}

/** Must-do tasks, and all that these need. */
function neededBy(plan: Plan): ReadonlySet<string> {
  const needed = new Set(plan.tasks.filter(({ must }) => must).map(({ id }) => id));
  for (const id of needed)
    for (const link of plan.links) {
      if (link.type !== "lag" || link.needs === "none") continue;
      if (link.to.task === id) needed.add(link.from.task);
      if (link.needs === "both" && link.from.task === id) needed.add(link.to.task);
    }
  return needed;
}

/** Likely lengths, and of what lies between likely and high as much as the plan's caution asks; what has begun as it is expected. */
function carefulLengths(plan: Plan, facts: Facts): ReadonlyMap<string, number> {
  const { caution } = plan.odds.crew;
  return new Map(
    plan.tasks.map(({ id, duration: { likelyS, highS } }) => {
      const more = facts.began.has(id) ? 0 : Math.ceil(caution * ((highS ?? likelyS) - likelyS));
      return [id, facts.lengthS.get(id)! + more];
    }),
  );
}
