import type { Opening } from "../problem/openings.ts";
import { openingsFrom, openingsOfActivity, startsIn } from "../problem/starts.ts";
import { KINDS, type Problem } from "../problem/problem.ts";
import { changed } from "../problem/changed.ts";

/**
 * The compiled problem with longer tasks, derived without compiling anew: every task lasts its likely time and a share of what
 * lies between likely and high. Windows, lags and draws move with the lengths; ways, crews and everything else are shared. What fits a
 * stretched day has time to spare on the day itself.
 */
export function restretch(problem: Problem, share: (activity: number) => number): Problem {
  const { plan, activities, routes } = problem;
  const lengthS = Int32Array.from(problem.lengthS);
  const more = new Int32Array(problem.nodes);
  for (let a = 0; a < activities; a += 1) {
    const { likelyS, highS } = plan.tasks[a]!.duration;
    // Of a task that takes no time it is not known what it draws.
    if (likelyS === 0) continue;
    more[a] = Math.round(Math.max(0, share(a)) * ((highS ?? likelyS) - likelyS));
    lengthS[a]! += more[a]!;
  }
  const shifted = plan.tasks.map((_, a) => windowsOf(problem, a, more[a]!));
  return changed(problem, {
    lengthS,
    ...openingsFrom(shifted.map((list, a) => startsIn(list, problem.gridS, problem.plan.tasks[a]!))),
    windows: openingsFrom(shifted),
    draws: { ...problem.draws, task: taskDraws(problem, lengthS, routes) },
    edges: { ...problem.edges, weight: weights(problem, more) },
  });
}

/** The latest start moves forward by `moreS` so that the longer task still ends inside; a fixed start stays. */
function windowsOf({ plan, windows }: Problem, a: number, moreS: number): Opening[] {
  const fixed = plan.tasks[a]!.pin?.startS !== undefined;
  return openingsOfActivity(windows, a).flatMap(({ fromS, toS }) => {
    const last = fixed || toS >= UNBOUNDED ? toS : toS - moreS;
    return last < fromS ? [] : [{ fromS, toS: last }];
  });
}

/** Starts as late as this are bounded by no window. */
const UNBOUNDED = 900_000_000;

/**
 * Draws are whole units a second over the length, so this stays whole. What is carried up a slope draws the same in a longer task; here it
 * grows with the length, on the safe side.
 */
function taskDraws(problem: Problem, lengthS: Int32Array, routes: number): Float64Array {
  const task = Float64Array.from(problem.draws.task);
  const each = routes * KINDS;
  for (let a = 0; a < problem.activities; a += 1) {
    const likelyS = problem.lengthS[a]!;
    if (likelyS === 0 || lengthS[a] === likelyS) continue;
    for (let i = a * each; i < (a + 1) * each; i += 1) task[i] = Math.round(task[i]! / likelyS) * lengthS[a]!;
  }
  return task;
}

/** Weights run from start to start: an end that moves takes its lag along. */
function weights(problem: Problem, more: Int32Array): Int32Array {
  const { plan, edges } = problem;
  const weight = Int32Array.from(edges.weight);
  const index = new Map(plan.tasks.map((task, a) => [task.id, a]));
  edges.origin.forEach((origin, x) => {
    if (origin.rule === "hot-keep-out") {
      weight[x]! += more[edges.from[x]!]! - more[edges.to[x]!]!;
      return;
    }
    if (origin.rule !== "link-lag") return;
    const link = plan.links[origin.link]!;
    if (link.type !== "lag") return;
    const ofFrom = link.from.end === "end" ? more[index.get(link.from.task)!]! : 0;
    const ofTo = link.to.end === "end" ? more[index.get(link.to.task)!]! : 0;
    weight[x]! += origin.side === "least" ? ofFrom - ofTo : ofTo - ofFrom;
  });
  return weight;
}
