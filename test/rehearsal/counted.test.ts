import { describe, expect, it } from "vitest";
import { check } from "../../src/check/index.ts";
import { instant } from "../../src/kernel/index.ts";
import { countedMust, countedWorth } from "../../src/rehearsal/counted.ts";
import { randomPlan } from "../properties/randomPlan.ts";

describe("S17: what a debrief counts", () => {
  it("is what the judge counts of the same tasks", () => {
    let shared = 0;
    for (let seed = 1; seed <= 60; seed += 1) {
      const plan = randomPlan(seed, { tasks: 8, crew: 2, evas: 1, places: 3, features: 1 });
      const there = plan.tasks.filter((_, k) => (seed * 7 + k * 5) % 3 > 0);
      const placements = there.map(({ id }) => ({ task: id, eva: null, crew: [], startS: instant(0) }));
      const { score } = check(plan, { placements });
      const among = (id: string): boolean => there.some((one) => one.id === id);
      expect(countedWorth(plan, among), `seed ${seed}`).toBe(score.worth);
      const { of, done } = countedMust(plan, among);
      expect(of - done, `seed ${seed}`).toBe(score.mustLeftOut);
      if (score.worth !== there.reduce((sum, { worth }) => sum + worth, 0)) shared += 1;
    }
    expect(shared).toBeGreaterThan(5);
  });
});
