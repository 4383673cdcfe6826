import { describe, expect, it } from "vitest";
import { check } from "../../src/check/index.ts";
import { random } from "../../src/kernel/index.ts";
import { parse, type Plan } from "../../src/plan/index.ts";
import type { PlanInput } from "../../src/plan/plan.ts";
import { packRun } from "../../src/solver/index.ts";
import { randomPlan } from "./randomPlan.ts";

/**
 * Maker and judge on plans with a height grid, crew that must stay near each other along bent ways, and all that tasks
 * may ask of the sky: what the maker gives, the judge calls sound.
 */
function hillyPlan(seed: number): Plan {
  const plan = randomPlan(seed, { tasks: 8, crew: 2, evas: 1, places: 5, features: 0.6 });
  const source = random(seed);
  const tasks = plan.tasks.map((task) => {
    const roll = source.next();
    if (roll < 0.2) return { ...task, light: source.next() < 0.5 ? ("lit" as const) : ("shaded" as const) };
    const leastDeg = Math.floor(source.next() * 120);
    if (roll < 0.4)
      return {
        ...task,
        sunAngle: { leastDeg, greatestDeg: leastDeg + 60, facingDeg: Math.floor(source.next() * 360) },
      };
    return roll < 0.5 ? { ...task, relay: true } : task;
  });
  const more = {
    body: { ...plan.body, ephemeris: "moon" },
    tasks,
    stay: { ...plan.stay, earthLink: source.next() < 0.5 },
    rules: {
      ...plan.rules,
      separation: { ...plan.rules.separation, level: "breach", greatestM: 250 + ((seed * 37) % 400) },
    },
    ground: {
      type: "made",
      seed,
      westM: -1000,
      southM: -1000,
      cellM: 25,
      columns: 81,
      rows: 81,
      roughnessM: 12,
      cratered: 0.05,
      largestM: 500,
      aim: source.next() < 0.5 ? "time" : "energy",
    },
  };
  // Through the only door, like any plan.
  const read = parse({ ...plan, ...more } as unknown as PlanInput);
  if (!read.ok) throw new Error(`seed ${seed}: ${JSON.stringify(read.error)}`);
  return read.value;
}

describe("maker and judge over a height grid", () => {
  it("agree: what is packed is sound, and tasks that ask for light are among it", () => {
    let placed = 0;
    let skies = 0;
    for (let seed = 1; seed <= 24; seed += 1) {
      const plan = hillyPlan(seed);
      const packing = packRun(plan, { seed, iterations: 300, clock: () => 0 });
      while (packing.step(300)) continue;
      const schedule = packing.best();
      const verdict = check(plan, schedule);
      expect({ seed, breaches: verdict.score.breaches }).toEqual({ seed, breaches: 0 });
      placed += schedule.placements.length;
      const asks = new Set(plan.tasks.filter((one) => one.light ?? one.sunAngle).map((one) => one.id));
      skies += schedule.placements.filter((one) => asks.has(one.task)).length;
    }
    expect(placed).toBeGreaterThan(40);
    expect(skies).toBeGreaterThan(5);
  });
});
