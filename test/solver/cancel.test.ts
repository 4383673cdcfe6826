import { describe, expect, it } from "vitest";
import { type Plan, type Schedule } from "../../src/plan/index.ts";
import { benchReasons, fitBands, greedy, packRun } from "../../src/solver/index.ts";
import { mend } from "./mended.ts";
import { jolt } from "../properties/jolt.ts";
import { randomPlan } from "../properties/randomPlan.ts";
import { frozen } from "./frozen.ts";
import { readyPlan } from "../readyplan.ts";

function packed(plan: Plan, sliceS: number, tickS: number, iterations = 60): Schedule {
  let nowS = 0;
  const run = packRun(plan, { seed: 11, iterations, clock: () => (nowS += tickS) });
  while (run.step(sliceS)) continue;
  return run.best();
}

describe("a plan", () => {
  it("comes through pack, mend, bands, reasons and greedy unwritten, the schedule given too", () => {
    const plans = [
      readyPlan("demo"),
      readyPlan("small"),
      randomPlan(1, SHAPE),
      randomPlan(2, SHAPE),
      randomPlan(3, SHAPE),
    ];
    for (const plan of plans) {
      const before = structuredClone(plan);
      frozen(plan);
      const from = frozen(packed(plan, 1, 0, 6));
      const run = packRun(plan, { seed: 1, iterations: 20, clock: () => 0, from });
      while (run.step(1)) continue;
      const broken = frozen(jolt(plan, from, 5));
      mend(plan, broken, { seed: 1, iterations: 2, clock: () => 0 });
      benchReasons(plan, from);
      greedy(plan);
      for (const task of plan.tasks.slice(0, 3)) fitBands(plan, from, task.id);
      expect(plan).toEqual(before);
    }
  });
});

const SHAPE = { tasks: 8, crew: 2, evas: 2, places: 4, features: 1 };

describe("a run", () => {
  it("gives the same schedule for the same seed and iterations, however it is sliced", () => {
    for (const plan of [readyPlan("demo"), readyPlan("small")]) {
      const whole = packed(plan, 1e9, 0);
      expect(whole.placements.length).toBeGreaterThan(3);
      for (const [sliceS, tickS] of [
        [0, 1],
        [0.004, 0.001],
        [0.05, 0.001],
        [1, 0.3],
      ] as const)
        expect(packed(plan, sliceS, tickS)).toEqual(whole);
    }
  });

  it("can be left between any two slices: the best so far stands, and what is begun anew does not know of it", () => {
    const plan = frozen(readyPlan("demo"));
    const whole = packed(plan, 1e9, 0);
    const left = packRun(plan, { seed: 11, iterations: 60, clock: () => 0 });
    left.step(0);
    const best = structuredClone(left.best());
    expect(best.placements.length).toBeGreaterThan(0);
    expect(packed(plan, 1e9, 0)).toEqual(whole);
    expect(left.best()).toEqual(best);
  });
});
