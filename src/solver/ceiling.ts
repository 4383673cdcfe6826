import type { Plan } from "../plan/index.ts";
import { crewTimeBound } from "./bound/crewtime.ts";
import { RouteBound } from "./bound/bound.ts";
import { MOST_PAIRS } from "./bound/index.ts";
import { routeClasses } from "./bound/routes.ts";
import { compile } from "./problem/compile.ts";
import type { Problem } from "./problem/problem.ts";
import { openingsFrom } from "./problem/starts.ts";
import { type DaySample, Days, sampleFor } from "./simulate/days.ts";
import { type Stage, stageOf } from "./simulate/stage.ts";
import { changed } from "./problem/changed.ts";

/**
 * What no crew does more of on average, however it is planned and however it decides: the mean over some simulated days of what that day
 * allows who knows it beforehand. A bound of the deterministic problem with the day's own durations bounds each day (`RouteBound`; Kleywegt,
 * Shapiro & Homem-de-Mello 2002, SIAM J Optim 12:479, for the mean). It leaves out suits, rests, lags and meetings, so it is above what can
 * be done; and it counts what is done inside the limits of every EVA.
 */
export interface Ceiling {
  readonly days: number;
  /** Mean of the days' bounds, and its standard error: other days would give another mean. */
  readonly mean: number;
  readonly standardError: number;
}

export interface CeilingSettings {
  readonly days: number;
  readonly seed: number;
  /** Turns of the route bound for each day; crew time alone where none. Any number of them bounds. */
  readonly turns: number;
}

/** The ceiling of `plan`; null for a plan of no days. */
export function ceilingOf(plan: Plan, { days: count, seed, turns }: CeilingSettings): Ceiling | null {
  if (count < 1) return null;
  const stage = stageOf(compile(plan));
  const days = new Days(stage.problem, "pert", count, seed);
  const bounds = Array.from({ length: count }, (_, day) => ceilingOn(stage, days, day, turns));
  const mean = bounds.reduce((sum, one) => sum + one, 0) / count;
  const square = bounds.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  return { days: count, mean, standardError: Math.sqrt(square / Math.max(1, count - 1) / count) };
}

/** The bound of day number `day`. */
export function ceilingOn(stage: Stage, days: Days, day: number, turns: number): number {
  const problem = onDay(stage, days, day);
  const classes = routeClasses(problem);
  const atOnce = crewTimeBound(problem, classes, false);
  const pairs = classes.reduce((sum, { count }) => sum + count ** 2, 0);
  if (turns === 0 || pairs > MOST_PAIRS) return atOnce;
  const bound = new RouteBound(problem, false, classes);
  bound.worth = atOnce;
  const going = bound.run(() => 0);
  for (let k = 0; k < turns; k += 1) if (going.next().done) break;
  return bound.worth;
}

/**
 * The problem of a day that is known beforehand: every task as short as with the quickest of its crews, started at any second at which it
 * still ends inside its window; what something rare spoils is worth nothing. What suits hold is left out, since the day's own work rates may
 * ask for less of it, and so are rests, which a crew takes by its own rule.
 */
function onDay(stage: Stage, days: Days, day: number): Problem {
  const { problem, openStart, openFromS, openToS, likelyS } = stage;
  const draws = sampleFor(problem);
  const lengthS = problem.lengthS.slice();
  const worth = problem.worth.slice();
  const lists = problem.plan.tasks.map((_, a) => {
    lengthS[a] = quickestS(problem, days, day, a, draws);
    if (draws.spoilt[a] === 1) worth[a] = 0;
    const list: { fromS: number; toS: number }[] = [];
    for (let o = openStart[a]!; o < openStart[a + 1]!; o += 1) {
      const toS = openToS[o]! + likelyS[a]! - lengthS[a]!;
      if (toS >= openFromS[o]!) list.push({ fromS: openFromS[o]!, toS });
    }
    return list;
  });
  return changed(problem, {
    lengthS,
    worth,
    ...openingsFrom(lists),
    draws: { ...problem.draws, binds: false },
    limits: { ...problem.limits, workS: Infinity },
  });
}

/** How long `a` takes on the day with the quickest of the crews that may do it, s. */
function quickestS(problem: Problem, days: Days, day: number, a: number, draws: DaySample): number {
  const { slotStart, choiceStart, choiceAt, choiceRoutes, crewCount } = problem;
  const order = Int32Array.of(a);
  const laneOf = new Int32Array(problem.slots).fill(-1);
  const crew = crewCount[a]!;
  if (crew === 0) {
    days.deal(day, order, laneOf, draws);
    return draws.durationS[a]!;
  }
  let leastS = Infinity;
  for (let c = choiceStart[a]!; c < choiceStart[a + 1]!; c += 1) {
    for (let k = 0; k < crew; k += 1) laneOf[slotStart[a]! + k] = choiceRoutes[choiceAt[c]! + k]!;
    days.deal(day, order, laneOf, draws);
    leastS = Math.min(leastS, draws.durationS[a]!);
  }
  return leastS === Infinity ? problem.lengthS[a]! : leastS;
}
