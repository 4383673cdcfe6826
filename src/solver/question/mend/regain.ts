import { random } from "../../../kernel/index.ts";
import type { Schedule } from "../../../plan/index.ts";
import { Anneal } from "../../search/anneal.ts";
import { compile } from "../../problem/compile.ts";
import { scheduleOf } from "../../network/placing.ts";
import type { Problem } from "../../problem/problem.ts";
import { restricted } from "../../problem/restricted.ts";
import { read, type PlacedActivity } from "../../network/verify.ts";
import { neededFor } from "../trial/needs.ts";
import { Trial } from "../trial/trial.ts";
import { scheduleFrom } from "../trial/placed.ts";
import type { Aim } from "./aim.ts";
import { less, losesNothing } from "./cost.ts";
import { nearer } from "./nearer.ts";
import { changed } from "../../problem/changed.ts";

/**
 * What the nearest schedule drops, put on again by letting other tasks go for it: nothing, one of those that may rather be lost, or
 * two in a row on somebody's way. What was let go is put on again where it still fits.
 */
export function* ejecting(aim: Aim): Generator<void, void> {
  for (const wanted of aim.nearest ? aim.lost(aim.nearest.placings) : []) {
    const { placings } = aim.nearest!;
    if (placings.some((placing) => placing.activity === wanted)) continue;
    const rather = placings.filter(({ activity }) => aim.byRank(activity, wanted) > 0);
    const byStart = [...rather].sort((a, b) => a.startS - b.startS || a.activity - b.activity);
    const groups: PlacedActivity[][] = [
      [],
      ...[...rather].sort((a, b) => -aim.byRank(a.activity, b.activity)).map((one) => [one]),
      ...byStart.slice(1).map((one, k) => [byStart[k]!, one]),
    ];
    let best: PlacedActivity[] | null = null;
    for (const group of groups) {
      yield;
      const made = withOthersOff(aim, placings, wanted, group);
      if (made && (!best || less(aim.cost(made), aim.cost(best)))) best = made;
    }
    if (best) yield* nearer(aim, best);
  }
}

/** `wanted` on the day without `group`, then all that is lost where it still fits; null where that is not sound. */
function withOthersOff(
  aim: Aim,
  placings: readonly PlacedActivity[],
  wanted: number,
  group: readonly PlacedActivity[],
): PlacedActivity[] | null {
  const { problem, verifier } = aim;
  const off = new Set(group);
  const rest = placings.filter((one) => !off.has(one));
  const trial = Trial.of(problem, scheduleFrom(problem, rest), { stream: random(wanted) });
  if (!trial?.place(wanted)) return null;
  for (const a of aim.lost(rest)) trial.place(a);
  trial.dropUnmet();
  const made = trial.soundBy(verifier);
  return made?.some((one) => one.activity === wanted) ? made : null;
}

/**
 * The packer's own search, must-do first, on nothing but what was placed and what that needs: from the nearest schedule, and from an
 * empty day. Where must-do work is still lost, from an empty day on all tasks, as a pack would do it; what was not placed before is then taken off
 * as far as the day holds without. Each result is brought nearer.
 */
export function* repacking(aim: Aim, seed: number, iterations: number): Generator<void, void> {
  const { plan, problem, before } = aim;
  const there = new Set(aim.wasS.keys());
  const needed = [...there].flatMap((a) => problem.needs[a]!.flatMap((b) => neededFor(problem, b, there)));
  const ids = new Set([...there, ...needed].map((a) => plan.tasks[a]!.id));
  const only = keptAsMust(aim, restricted(problem, ids));
  for (const from of [aim.nearest?.schedule ?? null, null]) {
    if (from === null && !loses(aim)) return;
    yield* nearer(aim, yield* searched(aim, only, from, seed, iterations));
  }
  // EVAs with crew in common in the order of the schedule, and then in that of their earliest egress.
  for (const whole of [problem, compile(plan)]) {
    if (!losesMust(aim)) return;
    const made = yield* searched(aim, keptAsMust(aim, whole), null, seed, iterations);
    yield* nearer(aim, withoutNew(aim, made, before));
  }
}

function* searched(
  aim: Aim,
  problem: Problem,
  from: Schedule | null,
  seed: number,
  iterations: number,
): Generator<void, PlacedActivity[]> {
  const search = new Anneal(problem, seed, from);
  for (let k = 0; k < iterations; k += 1) {
    yield;
    search.iterate(k / iterations);
  }
  return read(aim.problem, scheduleOf(search.best)).placings;
}

/** What is to be kept counts as must-do. */
function keptAsMust(aim: Aim, problem: Problem): Problem {
  return changed(problem, { must: problem.must.map((must, a) => (aim.keep.has(a) ? 1 : must)) });
}

function withoutNew(aim: Aim, placings: readonly PlacedActivity[], before: Schedule): PlacedActivity[] {
  const { plan, verifier } = aim;
  const was = new Set(before.placements.map((one) => one.task));
  let now = [...placings];
  for (const one of placings) {
    if (was.has(plan.tasks[one.activity]!.id)) continue;
    const rest = now.filter((other) => other !== one);
    if (verifier.holds(rest)) now = rest;
  }
  return now;
}

/** True while something that was placed is dropped. */
export function loses(aim: Aim): boolean {
  return !aim.nearest || !losesNothing(aim.nearest.cost);
}

function losesMust(aim: Aim): boolean {
  const cost = aim.nearest?.cost;
  return !cost || cost.keptDropped > 0 || cost.mustDropped > 0;
}
