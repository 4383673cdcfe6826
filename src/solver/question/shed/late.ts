import { duration } from "../../../kernel/index.ts";
import type { Plan } from "../../../plan/index.ts";
import { routesOf } from "../../problem/outings.ts";
import { suitRatesOn } from "../../problem/suitrates.ts";
import { KINDS, NEVER, type Problem } from "../../problem/problem.ts";

/** `plan` with one task lasting `bySeconds` longer (shorter when negative), no less than nothing. */
export function latePlan(plan: Plan, task: string, bySeconds: number): Plan {
  return {
    ...plan,
    tasks: plan.tasks.map((one) =>
      one.id === task
        ? {
            ...one,
            duration: { likelyS: duration(Math.max(0, one.duration.likelyS + bySeconds)) },
          }
        : one,
    ),
  };
}

/**
 * The same problem with `activity` lasting `lengthS`: its length, draws and the lags from and to its ends. Openings stay:
 * what is under way is not asked whether it may begin. Lags between two of `past` (1 by activity) are let go: nobody
 * can mend them any more.
 */
export function lasting(problem: Problem, activity: number, lengthS: number, past: Uint8Array): Problem {
  const { plan, edges, routes, activities } = problem;
  const lengths = problem.lengthS.slice();
  lengths[activity] = lengthS;
  const task = problem.draws.task.slice();
  const late = { ...plan.tasks[activity]!, duration: { likelyS: duration(lengthS) } };
  suitRatesOn(plan, problem.ways, routesOf(plan)).forEach((suit, r) => {
    suit.work(late).draws.forEach((rate, k) => {
      task[(activity * routes + r) * KINDS + k] = (rate - problem.draws.restRate[r * KINDS + k]!) * lengthS;
    });
  });
  const byS = lengthS - problem.lengthS[activity]!;
  const weight = edges.weight.slice();
  edges.origin.forEach((origin, x) => {
    const from = edges.from[x]!;
    const to = edges.to[x]!;
    if (from < activities && to < activities && past[from] === 1 && past[to] === 1) {
      weight[x] = -NEVER;
      return;
    }
    if (origin.rule === "hot-keep-out") {
      weight[x]! += (from === activity ? byS : 0) - (to === activity ? byS : 0);
    } else if (origin.rule === "link-lag") {
      const link = plan.links[origin.link]!;
      if (link.type !== "lag") return;
      const first = origin.side === "least" ? from : to;
      const second = origin.side === "least" ? to : from;
      const shift =
        (link.from.end === "end" && first === activity ? byS : 0) -
        (link.to.end === "end" && second === activity ? byS : 0);
      weight[x]! += origin.side === "least" ? shift : -shift;
    }
  });
  return {
    ...problem,
    lengthS: lengths,
    draws: { ...problem.draws, task },
    edges: { ...edges, weight },
  };
}
