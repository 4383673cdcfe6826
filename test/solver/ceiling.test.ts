import { describe, expect, it } from "vitest";
import { duration } from "../../src/kernel/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import { ceilingOf, ceilingOn } from "../../src/solver/ceiling.ts";
import { greedy } from "../../src/solver/index.ts";
import { Days, sampleFor } from "../../src/solver/simulate/days.ts";
import { acting } from "../../src/solver/simulate/crew.ts";
import { Player } from "../../src/solver/simulate/player.ts";
import { scriptOf } from "../../src/solver/simulate/script.ts";
import { allHome, worthOf } from "../../src/solver/simulate/tally.ts";
import { eva, task, tinyPlan } from "../check/tinyPlan.ts";
import { randomPlan } from "../properties/randomPlan.ts";

const DAYS = 8;

/** `plan` with tasks from half to twice as long, a pace that spreads, and something rare in every other task. */
function spread(plan: Plan): Plan {
  return {
    ...plan,
    crew: plan.crew.map((member) => ({ ...member, workRateSpread: 0.15 })),
    tasks: plan.tasks.map((one, a) => {
      const { likelyS } = one.duration;
      return {
        ...one,
        duration: { lowS: duration(Math.floor(likelyS / 2)), likelyS, highS: duration(likelyS * 2) },
        ...(a % 2 === 0 ? { mishap: { what: "jams", chance: 0.3, spoils: true } } : {}),
      };
    }),
  };
}

describe("what no crew does more of", () => {
  it("is on no simulated day below what a crew does that comes home inside every limit, on 24 random plans", () => {
    let days = 0;
    let near = 0;
    for (let seed = 1; seed <= 24; seed += 1) {
      const plan = spread(randomPlan(seed, { tasks: 10, crew: 2, evas: 2, places: 4, features: 0.6 }));
      const script = scriptOf(plan, greedy(plan));
      const drawn = new Days(script.problem, "pert", DAYS, seed);
      const player = new Player(script, acting(0.25));
      player.take();
      const draws = sampleFor(script.problem);
      for (let day = 0; day < DAYS; day += 1) {
        drawn.deal(day, script.order, script.laneOf, draws);
        player.play(draws);
        if (!allHome(player)) continue;
        days += 1;
        const done = worthOf(player);
        const quick = ceilingOn(script.stage, drawn, day, 0);
        const bound = ceilingOn(script.stage, drawn, day, 40);
        expect(bound, `seed ${seed}, day ${day}`).toBeGreaterThanOrEqual(done);
        expect(bound, `seed ${seed}, day ${day}`).toBeLessThanOrEqual(quick);
        if (done > 0.6 * bound) near += 1;
      }
    }
    expect(days).toBeGreaterThan(100);
    // It is worth something: a greedy day comes near it now and then.
    expect(near).toBeGreaterThan(10);
  });

  it("is the worthier of two tasks where there is only time for one, on every day", () => {
    // Out at 0, the place is 300 s from the lander; egress and ingress work take 600 s each. Of 3,000 s 1,200 are left for work;
    // each task takes 700 to 900 s, so that two never fit.
    const between = { lowS: duration(700), likelyS: duration(800), highS: duration(900) };
    const plan = tinyPlan({
      tasks: [
        task("poor", "a", { worth: 3, duration: between, crew: { named: ["ev1"] } }),
        task("rich", "a", { worth: 5, duration: between, crew: { named: ["ev1"] } }),
      ],
      evas: [eva("eva-1", { crew: ["ev1"], latestIngressS: 3000 })],
    });
    expect(ceilingOf(plan, { days: DAYS, seed: 1, turns: 50 })).toEqual({
      days: DAYS,
      mean: 5,
      standardError: 0,
    });
    expect(ceilingOf(plan, { days: 0, seed: 1, turns: 50 })).toBeNull();
  });
});
