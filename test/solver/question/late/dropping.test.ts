import { describe, expect, it } from "vitest";
import { check } from "../../../../src/check/index.ts";
import { compile } from "../../../../src/solver/problem/compile.ts";
import { greedy } from "../../../../src/solver/index.ts";
import { leastDropped, loses, type Lost } from "../../../../src/solver/question/late/dropping.ts";
import { Remainder } from "../../../../src/solver/question/late/remainder.ts";
import { read } from "../../../../src/solver/network/verify.ts";
import { randomPlan } from "../../../properties/randomPlan.ts";

describe("the set to drop", () => {
  it("loses least of all sets that hold, tried one by one", () => {
    let cases = 0;
    let dropped = 0;
    for (let seed = 1; seed <= 40; seed += 1) {
      const plan = randomPlan(seed, { tasks: 9, crew: 2, evas: 1, places: 4, features: 0.7 });
      const schedule = greedy(plan);
      if (check(plan, schedule).score.breaches > 0) continue;
      const problem = compile(plan);
      for (const placing of read(problem, schedule).placings) {
        if (problem.crewCount[placing.activity] === 0) continue;
        const remainder = new Remainder(problem, schedule, placing.activity, 0);
        if (remainder.open.length > 7) continue;
        for (const minutes of [10, 40]) {
          remainder.take(problem.lengthS[placing.activity]! + minutes * 60, false);
          const search = leastDropped(problem, remainder, null);
          let step = search.next();
          while (step.done !== true) step = search.next();
          const best = everySet(problem, remainder);
          const where = `seed ${seed}, task ${placing.activity}, ${minutes} min`;
          cases += 1;
          if (step.value && step.value.drop.length > 0) dropped += 1;
          const found = step.value && { mustLost: step.value.mustLost, worthLost: step.value.worthLost };
          expect(found, where).toEqual(best);
        }
      }
    }
    expect(cases).toBeGreaterThan(60);
    expect(dropped).toBeGreaterThan(15);
  });
});

/** The least loss of all subsets of what is open that hold; what is done in vain counts as lost. */
function everySet(problem: ReturnType<typeof compile>, remainder: Remainder): Lost | null {
  let best: Lost | null = null;
  const flags = new Uint8Array(problem.activities);
  for (let set = 0; set < 1 << remainder.open.length; set += 1) {
    flags.fill(0);
    remainder.open.forEach((a, i) => (flags[a] = (set >> i) & 1));
    if (!remainder.hold(flags)) continue;
    const lost = flags.slice();
    for (let again = true; again;) {
      again = false;
      for (let a = 0; a < problem.activities; a += 1)
        if (remainder.past[a] === 1 && lost[a] === 0 && problem.needs[a]!.some((b) => lost[b] === 1)) {
          lost[a] = 1;
          again = true;
        }
    }
    let mustLost = 0;
    let worthLost = 0;
    lost.forEach((one, a) => {
      if (one === 0) return;
      mustLost += problem.must[a]!;
      worthLost += problem.worth[a]!;
    });
    if (!best || loses({ mustLost, worthLost }, best)) best = { mustLost, worthLost };
  }
  return best;
}
