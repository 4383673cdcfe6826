import { describe, expect, it } from "vitest";
import type { PackReport, WishedDay } from "../../src/answers/index.ts";
import type { Engine, PackOptions } from "../../src/engine/calls.ts";
import { makeCore } from "../../src/engine/core.ts";
import { inTeam } from "../../src/engine/team.ts";
import type { Plan } from "../../src/plan/index.ts";
import { chanceOf } from "../../src/solver/simulate/chance.ts";
import { eva, task, tinyPlan } from "../check/tinyPlan.ts";

/**
 * Both by EV1 at a. Optional work of 600 s, 1800 s at most, from 3000 to 4500; then must-do work of 600 s from 3600 to 4500, which has to
 * begin by 3900: it can when the optional work takes 900 s at most. By PERT of 500, 600 and 1800 that is so on about 72 % of days.
 */
const plan: Plan = tinyPlan({
  tasks: [
    task("before", "a", {
      worth: 50,
      crew: { named: ["ev1"] },
      duration: { lowS: 500, likelyS: 600, highS: 1800 },
      windows: [{ startS: 3000, endS: 4500 }],
    }),
    task("must", "a", {
      must: true,
      worth: 10,
      crew: { named: ["ev1"] },
      windows: [{ startS: 3600, endS: 4500 }],
    }),
  ],
  evas: [eva("eva-1")],
});

const packed = async (options: Partial<PackOptions>): Promise<PackReport> =>
  makeCore(() => 0).pack(plan, { seed: 1, seconds: Infinity, iterations: 300, ...options });

describe("a pack for a wish", () => {
  it("is for the chance asked for: work before must-do work stays where half of the days are enough, and goes where nearly all are asked for", async () => {
    const half = (await packed({ aim: "wish", must: 0.5 })).wished!;
    expect(half.wish).toEqual({ home: plan.odds.wish.home, must: 0.5 });
    expect(half.meets).toBe(true);
    expect(half.outcome.must.share).toBeGreaterThan(0.65);
    expect(half.outcome.must.share).toBeLessThan(0.8);
    // The optional work nearly always, 50, and the must-do work on seven days of ten, 7.
    expect(half.outcome.meanWorth).toBeGreaterThan(50);
    const sure = (await packed({ aim: "wish", must: 0.99 })).wished!;
    expect(sure.wish.must).toBe(0.99);
    expect(sure.meets).toBe(true);
    expect(sure.outcome.must.share).toBe(1);
    expect(sure.outcome.meanWorth).toBeCloseTo(10, 9);
  });

  it("is for the plan's wish where no chance is asked for, and the plan stays as it is", async () => {
    const before = structuredClone(plan);
    const { wished } = await packed({ aim: "wish" });
    expect(wished!.wish).toEqual(plan.odds.wish);
    expect(wished!.outcome.must.share).toBeGreaterThanOrEqual(plan.odds.wish.must);
    await packed({ aim: "wish", must: 0.5 });
    expect(plan).toEqual(before);
  });

  it("is for likely durations where that is the aim, whatever the chance", async () => {
    const { wished, verdict } = await packed({ aim: "likely", must: 0.99 });
    expect(wished).toBeUndefined();
    expect(verdict.score.worth).toBe(60);
  });
});

describe("a team that packs for a wish", () => {
  const answering = (report: PackReport): Engine =>
    ({ pack: () => Promise.resolve(report), close: () => undefined }) as unknown as Engine;

  it("gives a day packed for the wish before one that is not, whoever gives it", async () => {
    const wished = await packed({ aim: "wish" });
    const likely = await packed({ aim: "likely" });
    const options = { seed: 1, seconds: 1, aim: "wish" } as const;
    expect(likely.verdict.score.worth).toBeGreaterThan(wished.verdict.score.worth);
    for (const [one, other] of [
      [wished, likely],
      [likely, wished],
    ] as const)
      expect((await inTeam(answering(one), () => [answering(other)]).pack(plan, options)).wished).toEqual(
        wished.wished,
      );
  });

  it("gives the day that meets the wish before one that does more", async () => {
    const one = await packed({ aim: "wish" });
    const day = (meets: boolean, must: number, meanWorth: number): PackReport => {
      const outcome = { home: chanceOf(100, 100), must: chanceOf(must, 100), meanWorth };
      const wished: WishedDay = { ...one.wished!, meets, outcome };
      return { ...one, wished };
    };
    const list = [day(false, 80, 60), day(true, 95, 40), day(true, 92, 45), day(false, 89, 70)];
    const [first, ...mates] = list.map(answering);
    const best = await inTeam(first!, () => mates).pack(plan, { seed: 1, seconds: 1, aim: "wish" });
    expect(best.wished!.outcome.meanWorth).toBe(45);
  });
});
