import { type Placement, type Plan, type Task, tasksById } from "../plan/index.ts";
import type { Facts } from "./facts.ts";
import type { ProjectedPlacement } from "./projection.ts";
import { landerOf, type RehearsedWays, wayS } from "./walking.ts";

/**
 * The start of `task`, which could begin at `startS`, that rests by the rule leave its crew (O10): before it whoever would be at work for too
 * long by its likely end waits until they have had a whole rest, at its place. `placements` are what stands before it.
 */
export function restedS(
  plan: Plan,
  facts: Facts,
  ways: RehearsedWays,
  placement: Placement,
  task: Task,
  startS: number,
  placements: readonly ProjectedPlacement[],
): number {
  const { level, longestS, restS } = plan.rules.work;
  if (level !== "breach" || task.effort === "rest") return startS;
  const lastS = facts.lengthS.get(task.id)! + homeS(plan, facts, ways, placement, task);
  let fromS = startS;
  for (const member of placement.crew) {
    const stretch = stretchOf(plan, facts, ways, placement, task, member, placements);
    if (!stretch || startS - stretch.pauseS >= restS) continue;
    if (startS + lastS - stretch.beganS > longestS) fromS = Math.max(fromS, stretch.pauseS + restS);
  }
  return fromS;
}

/**
 * The way home, where nothing more is to come on the EVA of any of the task's crew, and the ingress work where nothing more is to come of anybody:
 * who is back first waits at the lander. Else nothing.
 */
function homeS(plan: Plan, facts: Facts, ways: RehearsedWays, placement: Placement, task: Task): number {
  const later = facts.schedule.placements.filter(
    (one) => one.eva === placement.eva && one.startS > placement.startS && !facts.leftOut.has(one.task),
  );
  if (later.some((one) => one.crew.some((member) => placement.crew.includes(member)))) return 0;
  const ingressS = plan.evas.find((one) => one.id === placement.eva)?.ingressWorkS ?? 0;
  return wayS(ways, task.endPlace ?? task.place, landerOf(plan)) + (later.length > 0 ? 0 : ingressS);
}

/** Since when a crew member is at work without a whole rest, and since when they wait, once they are where `task` begins; null before egress. */
function stretchOf(
  plan: Plan,
  facts: Facts,
  ways: RehearsedWays,
  { eva: id }: Placement,
  task: Task,
  member: string,
  placements: readonly ProjectedPlacement[],
): { readonly beganS: number; readonly pauseS: number } | null {
  const eva = plan.evas.find((one) => one.id === id);
  const outS = eva && facts.outS.get(eva.id);
  if (!eva || outS === undefined) return null;
  const tasks = tasksById(plan);
  let place = landerOf(plan);
  let freeS = outS + eva.egressWorkS;
  let beganS: number = outS;
  let pauseS = freeS;
  const goes = (to: string | undefined): void => {
    const thereS = freeS + wayS(ways, place, to);
    if (thereS > freeS) pauseS = thereS;
  };
  const own = placements
    .filter((one) => one.eva === id && one.crew.includes(member) && one.task !== task.id)
    .toSorted((a, b) => a.startS - b.startS);
  for (const one of own) {
    const done = tasks.get(one.task)!;
    goes(done.place);
    if (one.startS - pauseS >= plan.rules.work.restS) beganS = one.startS;
    freeS = one.endS;
    place = done.endPlace ?? done.place;
    if (done.effort !== "rest") pauseS = one.endS;
    else if (one.endS - pauseS >= plan.rules.work.restS) beganS = one.endS;
  }
  goes(task.place);
  return { beganS, pauseS };
}
