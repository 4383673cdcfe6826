import type { Problem } from "./problem.ts";

/**
 * `problem` with `changes`. Every compiled problem is made here, so that all have one shape in memory: code that was made quick for one
 * shape is thrown away when it meets another, and stays slower where it meets several. An object that begins with a name before the rest is
 * spread into it has the same shape wherever the rest comes from; one that begins with the spread has not.
 */
export function changed(problem: Problem, changes: Partial<Problem>): Problem {
  const { plan, ...rest } = { ...problem, ...changes };
  const { binds, ...draws } = rest.draws;
  const { from, ...edges } = rest.edges;
  const { workS, ...limits } = rest.limits;
  return {
    plan,
    ...rest,
    draws: { binds, ...draws },
    edges: { from, ...edges },
    limits: { workS, ...limits },
  };
}
