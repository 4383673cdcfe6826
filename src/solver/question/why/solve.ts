import type { Plan, Schedule } from "../../../plan/index.ts";
import { Anneal } from "../../search/anneal.ts";
import { compiled } from "../../problem/known.ts";
import { scheduleOf } from "../../network/placing.ts";
import { onlyMost } from "../../problem/groups.ts";
import type { Problem } from "../../problem/problem.ts";
import { restricted } from "../../problem/restricted.ts";
import { read, readSound } from "../../network/verify.ts";
import { Trial } from "../trial/trial.ts";

/** How hard a solve tries. */
export interface Effort {
  readonly seed: number;
  readonly iterations: number;
  /** Orders with starts held back on purpose that are tried; none when left out. */
  readonly waits?: number;
}

/** Orders with starts held back on purpose that are tried of each change. */
export const WAITS_A_CHANGE = 16;

/** Places tried before the search is asked. */
const MOST_TRIES = 300;

/**
 * A sound schedule of `plan` with exactly the tasks of `schedule` and of `extra`, or null when none was found: first what is there
 * keeps its order and moves as little as it can, then the search may rearrange it for `effort.iterations`. The same arguments
 * give the same answer.
 */
export function* solve(
  plan: Plan,
  schedule: Schedule,
  extra: readonly string[],
  effort: Effort,
): Generator<void, Schedule | null> {
  const wanted = new Set([...schedule.placements.map((one) => one.task), ...extra]);
  const problem = onlyThese(compiled(plan, schedule), wanted);
  yield;
  const group = plan.tasks.flatMap((task, a) => (extra.includes(task.id) ? [a] : []));
  const made =
    (yield* inOrder(problem, schedule, group, effort.waits ?? 0)) ??
    (yield* searched(problem, schedule, wanted.size, effort));
  if (!made || made.placements.length !== wanted.size) return null;
  return readSound(problem, made) ? made : null;
}

/** Up to this many placements each is put elsewhere in turn. */
const MOST_FOR_ELSEWHERE = 16;

/**
 * The same with one placed task put elsewhere, the others in their order, waiting on purpose where that is what it takes; null where none
 * was found. Only for small days.
 */
export function* elsewhere(
  plan: Plan,
  schedule: Schedule,
  extra: readonly string[],
  waits: number,
): Generator<void, Schedule | null> {
  if (schedule.placements.length > MOST_FOR_ELSEWHERE) return null;
  for (const one of schedule.placements) {
    const rest = { placements: schedule.placements.filter((other) => other !== one) };
    const made = yield* solve(plan, rest, [...extra, one.task], { seed: 0, iterations: 0, waits });
    if (made) return made;
  }
  return null;
}

/** In its order: what is there slides; where that is not enough, starts are held back on purpose. */
function* inOrder(
  whole: Problem,
  schedule: Schedule,
  group: readonly number[],
  waits: number,
): Generator<void, Schedule | null> {
  // The slack test alone would leave on the board what it could not place.
  const problem: Problem = whole.checkLevel === "slack" ? { ...whole, checkLevel: "network" } : whole;
  const order = needsFirst(problem, group);
  for (const most of waits > 0 && problem.checkLevel === "rules" ? [0, waits] : [0]) {
    const free = yield* placed(problem, schedule, order, false, most);
    // With nothing brought forward fewer placements move.
    if (free) return (yield* placed(problem, schedule, order, true, most)) ?? free;
  }
  return null;
}

function* placed(
  problem: Problem,
  schedule: Schedule,
  order: readonly number[],
  still: boolean,
  waits: number,
): Generator<void, Schedule | null> {
  const trial = Trial.of(problem, schedule);
  if (!trial) return null;
  yield;
  if (still && !trial.holdBack(read(problem, schedule).placings)) return null;
  const all = yield* trial.placeGroup(order, { tries: MOST_TRIES, waits });
  return all === true ? trial.schedule : null;
}

function* searched(
  problem: Problem,
  schedule: Schedule,
  count: number,
  effort: Effort,
): Generator<void, Schedule | null> {
  const search = new Anneal(problem, effort.seed, schedule);
  for (let k = 0; k < effort.iterations && search.best.count < count; k += 1) {
    yield;
    search.iterate(k / effort.iterations);
  }
  return search.best.count === count ? scheduleOf(search.best) : null;
}

/** `group` with needed ones before those that need them. */
function needsFirst(problem: Problem, group: readonly number[]): number[] {
  const order: number[] = [];
  const seen = new Set<number>();
  const put = (a: number): void => {
    if (seen.has(a) || !group.includes(a)) return;
    seen.add(a);
    for (const need of problem.needs[a]!) put(need);
    order.push(a);
  };
  for (const a of group) put(a);
  return order;
}

/** The same problem in which only the named tasks can be placed, and each counts alike. */
function onlyThese(problem: Problem, ids: ReadonlySet<string>): Problem {
  return {
    ...restricted(problem, ids),
    worth: problem.worth.map(() => 1),
    must: problem.must.map(() => 0),
    groups: onlyMost(problem.groups),
  };
}
