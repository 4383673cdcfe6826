import type { Problem } from "../../problem/problem.ts";

/** `activity` and what it needs, directly or not, that is not `placed` already; needed ones first. */
export function neededFor(problem: Problem, activity: number, placed: ReadonlySet<number>): number[] {
  const group: number[] = [];
  const seen = new Set<number>();
  const gather = (a: number): void => {
    if (seen.has(a) || placed.has(a)) return;
    seen.add(a);
    for (const need of problem.needs[a]!) gather(need);
    group.push(a);
  };
  gather(activity);
  return group;
}
