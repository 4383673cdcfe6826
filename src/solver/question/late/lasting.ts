import { duration } from "../../../kernel/index.ts";
import { routesOf } from "../../problem/outings.ts";
import { suitRatesOn } from "../../problem/suitrates.ts";
import { KINDS, NEVER, type Problem } from "../../problem/problem.ts";
import { changed } from "../../problem/changed.ts";

/**
 * The same problem with `activity` lasting `lengthS`: its length, draws and the lags from and to its ends. Openings stay:
 * what is under way is not asked whether it may begin. Lags between two of `past` (1 by activity) are let go: nobody
 * can mend them any more.
 */
export function lasting(problem: Problem, activity: number, lengthS: number, past: Uint8Array): Problem {
  const { plan, routes } = problem;
  const lengths = problem.lengthS.slice();
  lengths[activity] = lengthS;
  const task = problem.draws.task.slice();
  const late = { ...plan.tasks[activity]!, duration: { likelyS: duration(lengthS) } };
  suitRatesOn(plan, problem.ways, routesOf(plan)).forEach((suit, r) => {
    suit.work(late).draws.forEach((rate, k) => {
      task[(activity * routes + r) * KINDS + k] = (rate - problem.draws.restRate[r * KINDS + k]!) * lengthS;
    });
  });
  return changed(problem, {
    lengthS: lengths,
    draws: { ...problem.draws, task },
    edges: { ...problem.edges, weight: weightsLasting(problem, activity, lengthS, past) },
  });
}

/** Least times between starts with `activity` lasting `lengthS`. */
function weightsLasting(problem: Problem, activity: number, lengthS: number, past: Uint8Array): Int32Array {
  const { edges, activities } = problem;
  const longerS = lengthS - problem.lengthS[activity]!;
  const isPast = (node: number): boolean => node < activities && past[node] === 1;
  const weight = edges.weight.slice();
  for (let x = 0; x < weight.length; x += 1) {
    const isMet = isPast(edges.from[x]!) && isPast(edges.to[x]!);
    weight[x] = isMet ? -NEVER : weight[x]! + longerS * shareOf(problem, x, activity);
  }
  return weight;
}

/** By how many of the seconds that `activity` lasts longer edge `x` grows, as it counts from ends: 1, 0 or -1. */
function shareOf({ plan, edges }: Problem, x: number, activity: number): number {
  const origin = edges.origin[x]!;
  const begins = Number(edges.from[x] === activity);
  const ends = Number(edges.to[x] === activity);
  if (origin.rule === "hot-keep-out") return begins - ends;
  const link = origin.rule === "link-lag" ? plan.links[origin.link]! : null;
  if (link?.type !== "lag") return 0;
  // A greatest lag is an edge the other way round.
  const isLeast = origin.rule === "link-lag" && origin.side === "least";
  const share = (one: number, end: "start" | "end"): number => (end === "end" ? one : 0);
  return isLeast
    ? share(begins, link.from.end) - share(ends, link.to.end)
    : share(begins, link.to.end) - share(ends, link.from.end);
}
