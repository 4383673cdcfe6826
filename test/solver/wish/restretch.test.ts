import { describe, expect, it } from "vitest";
import { duration } from "../../../src/kernel/index.ts";
import type { Plan } from "../../../src/plan/index.ts";
import { compile } from "../../../src/solver/compile/index.ts";
import { restretch } from "../../../src/solver/wish/restretch.ts";
import { randomPlan } from "../../properties/randomPlan.ts";

const SHAPE = { tasks: 14, crew: 3, evas: 2, places: 6, features: 0.7 };

/** `plan` with every likely duration where the stretch puts it, and windows and all else as they are. */
function longer(plan: Plan, share: number): Plan {
  return {
    ...plan,
    tasks: plan.tasks.map((task) => {
      const { likelyS, highS = likelyS } = task.duration;
      const lengthS = likelyS === 0 ? 0 : likelyS + Math.round(share * (highS - likelyS));
      return {
        ...task,
        duration: { ...task.duration, likelyS: duration(lengthS), highS: duration(Math.max(lengthS, highS)) },
      };
    }),
  };
}

describe("a stretched problem", () => {
  it("is what compiling the plan with longer tasks gives, but for ways and crews that it shares", () => {
    let moved = 0;
    for (let seed = 1; seed <= 60; seed += 1) {
      const plan = randomPlan(seed, SHAPE);
      for (const share of [0.1, 0.5]) {
        const quick = restretch(compile(plan), () => share);
        const slow = compile(longer(plan, share));
        expect(quick.lengthS, `seed ${seed}`).toEqual(slow.lengthS);
        expect(quick.openStart, `seed ${seed}`).toEqual(slow.openStart);
        expect(quick.openFromS).toEqual(slow.openFromS);
        expect(quick.openToS).toEqual(slow.openToS);
        expect(quick.edges.weight).toEqual(slow.edges.weight);
        expect(quick.draws.task).toEqual(slow.draws.task);
        if (slow.lengthS.some((length, a) => length !== compile(plan).lengthS[a])) moved += 1;
      }
    }
    expect(moved).toBeGreaterThan(60);
  });

  it("is the problem itself without a stretch", () => {
    const problem = compile(randomPlan(3, SHAPE));
    const same = restretch(problem, () => 0);
    expect(same.lengthS).toEqual(problem.lengthS);
    expect(same.openToS).toEqual(problem.openToS);
    expect(same.draws.task).toEqual(problem.draws.task);
    expect(same.edges.weight).toEqual(problem.edges.weight);
  });
});
