import type { Problem } from "../problem/problem.ts";

/** All other activities, nearest to `a` first: by the way, or the wait that cannot be avoided. */
export function nearestTo(problem: Problem, a: number): Int32Array {
  const { activities, places, lengthS, beginsAt, endsAt, openStart, openFromS, openToS } = problem;
  const legs = problem.legS[0];
  const from = (one: number): number => openFromS[openStart[one]!] ?? 0;
  const to = (one: number): number => openToS[openStart[one + 1]! - 1] ?? 0;
  /** Way, or the wait that cannot be avoided when `second` follows `first`. */
  const follow = (first: number, second: number): number =>
    Math.max(
      legs ? legs[endsAt[first]! * places + beginsAt[second]!]! : 0,
      from(second) - to(first) - lengthS[first]!,
    );
  const keys = new Float64Array(Math.max(0, activities - 1));
  let k = 0;
  for (let b = 0; b < activities; b += 1) {
    if (b === a) continue;
    keys[k] = Math.min(follow(a, b), follow(b, a)) * activities + b;
    k += 1;
  }
  keys.sort();
  return Int32Array.from(keys, (key) => ((key % activities) + activities) % activities);
}
