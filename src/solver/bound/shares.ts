import { onlyMost } from "../problem/groups.ts";
import type { Problem } from "../problem/problem.ts";
import { changed } from "../problem/changed.ts";

/** A problem in which each activity counts for itself, and points on top: no day counts more than it does here. */
export interface Linear {
  readonly problem: Problem;
  readonly more: number;
}

/**
 * `problem` without the shares of groups, each of which says how much its repeats count. Of a group one share is what every member counts;
 * the first few may count more than that, each so much that it is enough whichever member it is. Which share that is decides how
 * tight this is: each is tried, one group after the other, and kept where `bound` is least.
 */
export function linearised(problem: Problem, bound: (linear: Linear) => number): Linear {
  const { groups } = problem;
  let best: Linear = { problem, more: 0 };
  if (!groups?.shares.some((list) => list.length > 0)) return best;
  best = { problem: changed(problem, { groups: onlyMost(groups) }), more: 0 };
  groups.shares.forEach((shares, g) => {
    const before = best;
    let least = Infinity;
    for (let j = 0; j < shares.length; j += 1) {
      const tried = withShare(before, groups.members[g]!, shares, j);
      const now = bound(tried);
      if (now >= least) continue;
      least = now;
      best = tried;
    }
  });
  return best;
}

/** Every one of `members`, the most worth first, counts share `j`; those before the `j`th what they may count more. */
function withShare(
  { problem, more }: Linear,
  members: Int32Array,
  shares: readonly number[],
  j: number,
): Linear {
  const counts = (a: number, k: number): number => Math.floor((problem.worth[a]! * shares[k]!) / 100);
  const worth = problem.worth.slice();
  for (const a of members) worth[a] = counts(a, j);
  // The one with rank k is among the members from the kth on.
  const over = Array.from({ length: Math.min(j, members.length) }, (_, k) =>
    members.subarray(k).reduce((most, a) => Math.max(most, counts(a, k) - counts(a, j)), 0),
  );
  return { problem: changed(problem, { worth }), more: over.reduce((sum, one) => sum + one, more) };
}
