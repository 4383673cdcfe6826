import { draw, instant, random } from "../kernel/index.ts";
import {
  type Eva,
  type Mishap,
  mishapsOf,
  type Plan,
  remediesAfter,
  remedyHost,
  type Task,
  tasksById,
} from "../plan/index.ts";
import { goingAhead, isLeftOut, leaveByS } from "./acting.ts";
import { type Call, MOST_CALLS, type Rehearsal } from "./call.ts";
import { type Facts, factsOf } from "./facts.ts";
import { homeS, leaveS } from "./airlock.ts";
import type { Between } from "./between.ts";
import { type Going, projected, type ProjectedPlacement } from "./projection.ts";
import { betweenOf } from "./stays.ts";
import type { RehearsedWays } from "./walking.ts";

/**
 * The calls that a crew makes by itself until `toS`: every task takes a time drawn between its low and its high (PERT), the same for the same
 * seed and task, longer by what was called for it and by what goes wrong. Where the plan's crew acts (`acting`), they go ahead when ready,
 * rest, break off in time to be home and leave out; else everybody carries on in order. The clock stands at `toS` afterwards.
 */
export function played(plan: Plan, rehearsal: Rehearsal, toS: number, ways: RehearsedWays): Rehearsal {
  let now: Rehearsal = rehearsal;
  while (now.calls.length < MOST_CALLS) {
    const call = nextCall(plan, now, ways);
    if (!call || call.atS > toS) break;
    now = { ...now, nowS: instant(Math.max(now.nowS, call.atS)), calls: [...now.calls, call] };
  }
  return { ...now, nowS: instant(Math.max(now.nowS, toS)) };
}

/** The next call that a crew playing by itself would make, at the clock's time or later; null when everybody is back. */
export function nextCall(plan: Plan, rehearsal: Rehearsal, ways: RehearsedWays): Call | null {
  const { nowS } = rehearsal;
  const facts = factsOf(plan, rehearsal.calls);
  const between = betweenOf(plan, rehearsal.calls, ways);
  const going = plan.odds.crew.acts ? goingAhead(plan, facts, between) : null;
  const placements = projected(
    plan,
    { ...facts, lengthS: drawnLengths(plan, facts, rehearsal.seed) },
    between,
    nowS,
    going,
  );
  const tasks = tasksById(plan);
  const day: Day = { plan, tasks, seed: rehearsal.seed, facts, between, going, placements };
  const calls = [
    ...placements.map((placement) => taskCall(day, placement)),
    ...plan.evas.map((eva) => airlockCall(day, eva)),
  ].flatMap((call) => (call ? [{ ...call, atS: instant(Math.max(nowS, call.atS)) }] : []));
  // What ends makes room for what begins at the same moment.
  const rank = { ends: 0, in: 1, out: 2 } as Partial<Record<Call["kind"], number>>;
  const next = calls.toSorted((a, b) => a.atS - b.atS || (rank[a.kind] ?? 3) - (rank[b.kind] ?? 3))[0];
  if (!next || !going || next.kind !== "begins") return next ?? null;
  // Decided when it could begin, on what is known by then.
  const ready = projected(plan, facts, between, next.atS, going).find(
    (placement) => placement.task === next.task,
  );
  if (!ready || !isLeftOut(plan, facts, between, going, ready, next.atS)) return next;
  return { atS: next.atS, kind: "left-out", task: next.task };
}

/** The day as it stands and goes on, from which the next calls follow. */
interface Day {
  readonly plan: Plan;
  readonly tasks: ReadonlyMap<string, Task>;
  readonly seed: number;
  readonly facts: Facts;
  readonly between: Between;
  readonly going: Going | null;
  readonly placements: readonly ProjectedPlacement[];
}

/** The call that is next about a task: it begins or ends, or the crew gives it up to be home in time. */
function taskCall(day: Day, placement: ProjectedPlacement): Call | null {
  const task = day.tasks.get(placement.task);
  if (!task) return null;
  if (placement.state === "under way") return endCall(day, task, placement);
  return placement.state === "to come" ? beginCall(day, task, placement) : null;
}

/** Nothing while what has gone wrong with it may still be made good. */
function endCall(
  { plan, seed, facts, between, going }: Day,
  task: Task,
  placement: ProjectedPlacement,
): Call | null {
  const byS = going ? leaveByS(plan, facts, between.ways, task, placement.eva) : Infinity;
  if (byS < placement.endS)
    return { ...at(Math.max(placement.startS, Math.floor(byS))), kind: "left-out", task: task.id };
  const mending = mendingOf(plan, facts, task, seed);
  if (mending === "to come") return null;
  return { ...at(placement.endS), kind: mending === "never" ? "spoilt" : "ends", task: task.id };
}

function beginCall(
  { plan, facts, between, going }: Day,
  task: Task,
  placement: ProjectedPlacement,
): Call | null {
  const isOut = placement.eva === null || (facts.outS.has(placement.eva) && !facts.inS.has(placement.eva));
  if (!isOut) return null;
  // The last moment to begin with the way home left: when it has passed nobody waits any longer.
  const lastS = going
    ? leaveByS(plan, facts, between.ways, task, placement.eva) - facts.lengthS.get(task.id)!
    : Infinity;
  return placement.startS > lastS
    ? { ...at(lastS), kind: "left-out", task: task.id }
    : { ...at(placement.startS), kind: "begins", task: task.id };
}

/** The call that is next about an EVA: out in time for its first task, in when all is done. */
function airlockCall({ plan, facts, between, placements }: Day, eva: Eva): Call | null {
  const own = placements.filter((placement) => placement.eva === eva.id);
  const outS = facts.outS.get(eva.id);
  if (outS === undefined)
    return own.length > 0
      ? { ...at(leaveS(plan, eva, placements, between)), kind: "out", eva: eva.id }
      : null;
  if (facts.inS.has(eva.id) || own.some((placement) => placement.state !== "done")) return null;
  const airlockDoneS = outS + eva.egressWorkS + eva.ingressWorkS;
  return { ...at(Math.max(airlockDoneS, homeS(plan, eva, placements, between))), kind: "in", eva: eva.id };
}

function at(atS: number): { readonly atS: Call["atS"] } {
  return { atS: instant(Math.ceil(atS)) };
}

/** How long everything that has begun takes in the end: nobody knows it yet, but what follows has to wait for it. */
function drawnLengths(plan: Plan, facts: Facts, seed: number): ReadonlyMap<string, number> {
  const lengthS = new Map(facts.lengthS);
  for (const task of plan.tasks) {
    if (!facts.began.has(task.id)) continue;
    const called = facts.lengthS.get(task.id)! - task.duration.likelyS;
    lengthS.set(task.id, Math.max(1, ownS(plan, task, seed) + called + mendingS(plan, facts, task, seed)));
  }
  return lengthS;
}

/** How long `task` takes with what goes wrong with it, but not with what is made good at its end. */
function ownS(plan: Plan, task: Task, seed: number): number {
  const wrongS = mishapsIn(plan, task, seed).reduce((sum, { extraS = 0 }) => sum + extraS, 0);
  return drawnS(task.id, task.duration, seed) + wrongS;
}

/** How long it takes to make good at the end of `task` what has gone wrong by then. */
function mendingS(plan: Plan, facts: Facts, task: Task, seed: number): number {
  const upS = (one: Task): number => facts.began.get(one.id)! + ownS(plan, one, seed);
  return remediesAfter(plan, task.id)
    .filter(({ of }) => canMend(of) && isMendable(plan, of, seed))
    .filter(({ of }) => of.id === task.id || (isUnderWay(facts, of) && upS(of) <= upS(task)))
    .reduce((sum, { of, remedy }) => sum + drawnS(`${of.id} remedy`, remedy.duration, seed), 0);
}

/**
 * How it stands with what has gone wrong with `task`, whose time is up. What is made good at the end of another task stays open until
 * then, so that only work without crew can be: a crew is free for the next task, and theirs is lost.
 */
function mendingOf(plan: Plan, facts: Facts, task: Task, seed: number): "needless" | "never" | "to come" {
  if (!mishapsIn(plan, task, seed).some(({ spoils }) => spoils)) return "needless";
  const host = remedyHost(task);
  if (host === null || !canMend(task) || !isMendable(plan, task, seed)) return "never";
  if (host === task.id) return "needless";
  const upS = facts.began.get(task.id)! + ownS(plan, task, seed);
  const doneS = facts.ended.get(host);
  if (doneS !== undefined) return doneS >= upS ? "needless" : "never";
  const isThere = facts.schedule.placements.some((one) => one.task === host);
  return isThere && !facts.leftOut.has(host) ? "to come" : "never";
}

function canMend(task: Task): boolean {
  return task.crew.count === 0 || remedyHost(task) === task.id;
}

function isUnderWay(facts: Facts, { id }: Task): boolean {
  return facts.began.has(id) && !facts.ended.has(id) && !facts.leftOut.has(id);
}

/** True where all that spoils the task this time is made good by its remedy. */
function isMendable(plan: Plan, task: Task, seed: number): boolean {
  const spoiling = mishapsIn(plan, task, seed).filter(({ spoils }) => spoils);
  return spoiling.length > 0 && spoiling.every((mishap) => mishap === task.mishap) && !!task.mishap?.remedy;
}

function drawnS(id: string, { lowS, likelyS, highS }: Task["duration"], seed: number): number {
  const stream = random((seed ^ hashOf(id)) >>> 0);
  return Math.ceil(draw("pert", lowS ?? likelyS, likelyS, highS ?? likelyS, stream));
}

/** What goes wrong with a task this time. */
function mishapsIn(plan: Plan, task: Task, seed: number): readonly Mishap[] {
  return mishapsOf(plan, task).filter(({ chance }, k) => {
    const stream = random((seed ^ hashOf(`${task.id} mishap ${k}`)) >>> 0);
    return stream.next() < chance;
  });
}

/** FNV-1a of 32 bits (Fowler, Noll and Vo; constants from memory), so that a task's draw does not depend on the others. */
function hashOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i += 1) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return hash >>> 0;
}
