import { draw, instant, random } from "../kernel/index.ts";
import type { Plan } from "../plan/index.ts";
import { type Call, MOST_CALLS, type Rehearsal } from "./call.ts";
import { type Facts, factsOf } from "./facts.ts";
import { homeS, leaveS } from "./hatch.ts";
import { projected } from "./projection.ts";
import { betweenOf } from "./stays.ts";
import type { Walks } from "./walking.ts";

/**
 * The calls that a crew makes by itself until `toS`: everybody carries on in order, and every task takes a time drawn between its low
 * and its high (PERT), the same for the same seed and task, and longer by what was called for it. The clock stands at `toS` afterwards.
 */
export function played(plan: Plan, rehearsal: Rehearsal, toS: number, walks: Walks): Rehearsal {
  let now: Rehearsal = rehearsal;
  while (now.calls.length < MOST_CALLS) {
    const call = nextCall(plan, now, walks);
    if (!call || call.atS > toS) break;
    now = { ...now, nowS: instant(Math.max(now.nowS, call.atS)), calls: [...now.calls, call] };
  }
  return { ...now, nowS: instant(Math.max(now.nowS, toS)) };
}

/** The next call that a crew playing by itself would make, at the clock's time or later; null when everybody is back. */
export function nextCall(plan: Plan, rehearsal: Rehearsal, walks: Walks): Call | null {
  const { nowS } = rehearsal;
  const facts = factsOf(plan, rehearsal.calls);
  const between = betweenOf(plan, rehearsal.calls, walks);
  const tasks = new Map(plan.tasks.map((task) => [task.id, task]));
  const spots = projected(
    plan,
    { ...facts, lengthS: drawnLengths(plan, facts, rehearsal.seed) },
    between,
    nowS,
  );
  const calls: Call[] = [];
  const add = (call: Call): void => void calls.push({ ...call, atS: instant(Math.max(nowS, call.atS)) });
  const at = (atS: number): { atS: Call["atS"] } => ({ atS: instant(Math.ceil(atS)) });

  for (const spot of spots) {
    const task = tasks.get(spot.task);
    if (!task) continue;
    if (spot.state === "under way") {
      add({ ...at(spot.endS), kind: "ends", task: task.id });
    } else if (spot.state === "to come") {
      const out = spot.eva === null || (facts.outS.has(spot.eva) && !facts.inS.has(spot.eva));
      if (out) add({ ...at(spot.startS), kind: "begins", task: task.id });
    }
  }
  for (const eva of plan.evas) {
    const own = spots.filter((spot) => spot.eva === eva.id);
    if (!facts.outS.has(eva.id)) {
      if (own.length > 0) add({ ...at(leaveS(plan, eva, spots, between)), kind: "out", eva: eva.id });
    } else if (!facts.inS.has(eva.id) && own.every((spot) => spot.state === "done")) {
      const hatchesS = facts.outS.get(eva.id)! + eva.egressWorkS + eva.ingressWorkS;
      add({ ...at(Math.max(hatchesS, homeS(plan, eva, spots, between))), kind: "in", eva: eva.id });
    }
  }
  // What ends makes room for what begins at the same moment.
  const rank = { ends: 0, in: 1, out: 2 } as Partial<Record<Call["kind"], number>>;
  return calls.toSorted((a, b) => a.atS - b.atS || (rank[a.kind] ?? 3) - (rank[b.kind] ?? 3))[0] ?? null;
}

/** How long everything that has begun takes in the end: nobody knows it yet, but what follows has to wait for it. */
function drawnLengths(plan: Plan, facts: Facts, seed: number): ReadonlyMap<string, number> {
  const lengthS = new Map(facts.lengthS);
  for (const task of plan.tasks) {
    if (!facts.began.has(task.id)) continue;
    const called = facts.lengthS.get(task.id)! - task.duration.likelyS;
    lengthS.set(task.id, Math.max(1, drawnS(task, seed) + called));
  }
  return lengthS;
}

function drawnS(task: Plan["tasks"][number], seed: number): number {
  const { lowS, likelyS, highS } = task.duration;
  const stream = random((seed ^ hashOf(task.id)) >>> 0);
  return Math.ceil(draw("pert", lowS ?? likelyS, likelyS, highS ?? likelyS, stream));
}

/** FNV-1a of 32 bits (Fowler, Noll and Vo; constants from memory), so that a task's draw does not depend on the others. */
function hashOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i += 1) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return hash >>> 0;
}
