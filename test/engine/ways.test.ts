import { describe, expect, it } from "vitest";
import { makeCore } from "../../src/engine/core.ts";
import { gaitsOf, homeOf, waysOf } from "../../src/terrain/index.ts";
import { readyPlan } from "../readyplan.ts";

describe("ways for somebody else", () => {
  const plan = readyPlan("demo");
  const core = makeCore(() => 0);

  it("are those of the plan, told place by place", async () => {
    const told: number[] = [];
    const made = await core.ways(plan, {}, { report: ({ done, total }) => told.push(done / total) });
    const { planned, back } = gaitsOf(plan);
    const ways = waysOf(plan.site, planned);
    expect(made).toMatchObject({ ways, home: homeOf(plan.site, ways, back) });
    expect([told[0], told.at(-1)]).toEqual([0, 1]);
    expect(told.length).toBeGreaterThan(plan.site.places.length);
  });

  it("are broken off between two places", async () => {
    const enough = new AbortController();
    let steps = 0;
    const yieldToHost = async (): Promise<void> => {
      steps += 1;
      if (steps === 3) enough.abort();
    };
    await expect(core.ways(plan, {}, { yieldToHost, signal: enough.signal })).rejects.toThrow("broken off");
    expect(steps).toBe(3);
  });
});
