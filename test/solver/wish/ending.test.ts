import { describe, expect, it } from "vitest";
import { wishRun } from "../../../src/solver/wish/index.ts";
import { readyPlan } from "../../readyplan.ts";

describe("a pack for the wish", () => {
  it("ends on a machine so slow that its time is over before it has begun from nothing as often as it would", () => {
    const plan = readyPlan("small");
    let nowS = 0;
    // Each look at the clock finds it a second further on.
    const run = wishRun(plan, { from: plan.schedule, seed: 1, seconds: 2, clock: () => (nowS += 1) });
    let steps = 0;
    while (run.step(0.001) && steps < 2000) steps += 1;
    expect(steps).toBeLessThan(2000);
    expect(run.progress().stopped).toBe(true);
  });
});
