import { describe, expect, it } from "vitest";
import { curveRun } from "../../../src/solver/wish/index.ts";
import { readyPlan } from "../../readyplan.ts";

/** A clock on which every look at it is a second: what is played between two looks is the time that it takes. */
function lookedAt(): () => number {
  let atS = 0;
  return () => (atS += 1);
}

function ended(seconds: number) {
  const clock = lookedAt();
  const plan = readyPlan("small");
  const run = curveRun(plan, { from: plan.schedule, seed: 1, seconds, clock });
  while (run.step(20)) continue;
  return { usedS: clock(), days: run.best().map((one) => one.days) };
}

describe("a curve that is asked to take so long", () => {
  it("has counted its days by then: what it searches less, and in the end how many days it counts, gives way", () => {
    const [short, long] = [ended(600), ended(20_000)];
    expect(short.usedS).toBeLessThanOrEqual(600);
    expect(long.usedS).toBeLessThanOrEqual(20_000);
    // Days are told, and more of them where there is time.
    for (const [k, count] of short.days.entries()) {
      expect(count).toBeGreaterThan(0);
      expect(count).toBeLessThan(long.days[k]!);
    }
  });
});
