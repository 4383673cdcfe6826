import { describe, expect, it } from "vitest";
import { check } from "../../src/check/index.ts";
import { random } from "../../src/kernel/index.ts";
import { FASTEST_MS } from "../../src/physics/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import { greedy } from "../../src/solver/index.ts";
import { randomPlan } from "./randomPlan.ts";

/** `plan` walking, or walking back, at a speed nobody in a suit walked, every rule a warning that may be one. */
function beyond(plan: Plan, seed: number): Plan {
  const stream = random(seed);
  const over = (): number => FASTEST_MS * 1.0001 + stream.next() * 3;
  const which = stream.below(3);
  const rules = Object.fromEntries(
    Object.entries(plan.rules).map(([key, rule]) => [
      key,
      typeof rule === "object" ? { ...rule, level: "warning" as const } : rule,
    ]),
  ) as Plan["rules"];
  return {
    ...plan,
    rules: {
      ...rules,
      walking: { ...rules.walking, ...(which === 1 ? {} : { speedMs: over() }) },
      walkback: { ...rules.walkback, ...(which === 0 ? {} : { speedMs: over() }) },
    },
  };
}

const SHAPE = { tasks: 8, crew: 2, evas: 2, places: 5, features: 1 };

describe("walking-physics on random plans", () => {
  it("500 plans that walk faster than people can never have 0 breaches when somebody goes out, nor does the maker let them", () => {
    let judged = 0;
    for (let seed = 0; judged < 500; seed += 1) {
      const plan = randomPlan(seed, SHAPE);
      const schedule = greedy(plan);
      if (schedule.placements.every((one) => one.eva === null)) continue;
      for (let k = 0; k < 10; k += 1) {
        const fast = beyond(plan, 10 * seed + k);
        expect(check(fast, schedule).findings).toContainEqual(
          expect.objectContaining({ rule: "walking-physics", level: "breach" }),
        );
        judged += 1;
      }
      expect(greedy(beyond(plan, seed)).placements.filter((one) => one.eva !== null)).toEqual([]);
    }
    expect(judged).toBeGreaterThanOrEqual(500);
  });
});
