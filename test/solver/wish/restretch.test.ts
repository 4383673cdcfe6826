import { describe, expect, it } from "vitest";
import { duration } from "../../../src/kernel/index.ts";
import type { Plan } from "../../../src/plan/index.ts";
import { compile } from "../../../src/solver/problem/compile.ts";
import { openingsOfActivity } from "../../../src/solver/problem/starts.ts";
import { KINDS } from "../../../src/solver/problem/problem.ts";
import { restretch } from "../../../src/solver/wish/restretch.ts";
import { randomPlan } from "../../properties/randomPlan.ts";

const SHAPE = { tasks: 14, crew: 3, evas: 2, places: 6, features: 0.7 };

/** `plan` with highs: whole multiples of the likely durations. */
function spread(plan: Plan): Plan {
  return {
    ...plan,
    tasks: plan.tasks.map((task, a) => {
      const { likelyS } = task.duration;
      return { ...task, duration: { ...task.duration, highS: duration(likelyS * (1 + (a % 3))) } };
    }),
  };
}

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
      const plan = spread(randomPlan(seed, SHAPE));
      for (const share of [0.1, 0.5]) {
        const quick = restretch(compile(plan), () => share);
        const slow = compile(longer(plan, share));
        expect(quick.lengthS, `seed ${seed}`).toEqual(slow.lengthS);
        plan.tasks.forEach((_, a) => {
          // Windows that overlap are one opening at likely durations; longer tasks may fit only parts of it.
          const wide = openingsOfActivity(quick, a);
          const exact = openingsOfActivity(slow, a);
          const inside = exact.every(({ fromS, toS }) =>
            wide.some((one) => one.fromS <= fromS && toS <= one.toS),
          );
          expect(inside, `seed ${seed}`).toBe(true);
        });
        expect(quick.edges.weight).toEqual(slow.edges.weight);
        // The work of what is carried or walked up a slope is the same in a longer task; here it grows with it, on the safe side.
        const each = quick.routes * KINDS;
        plan.tasks.forEach(({ massOutKg, endPlace, walkM }, a) => {
          const level = massOutKg === 0 && endPlace === undefined && walkM === 0;
          for (let i = a * each; i < (a + 1) * each; i += 1)
            if (level) expect(quick.draws.task[i]! - slow.draws.task[i]!).toBe(0);
            else expect(quick.draws.task[i]!).toBeGreaterThanOrEqual(slow.draws.task[i]!);
        });
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
