import { random } from "../../../../src/kernel/index.ts";
import type { Plan, Schedule } from "../../../../src/plan/index.ts";
import { Anneal } from "../../../../src/solver/search/anneal.ts";
import { compile } from "../../../../src/solver/problem/compile.ts";
import { scheduleOf } from "../../../../src/solver/network/placing.ts";

/** A day packed by the search alone, for `iterations`; without its proofs, which these tests have no use for. */
export function packed(plan: Plan, iterations: number, seed = 1): Schedule {
  const search = new Anneal(compile(plan), random(seed).below(1e6), null);
  for (let k = 0; k < iterations; k += 1) search.iterate(k / iterations);
  return scheduleOf(search.best);
}
