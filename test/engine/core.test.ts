import { describe, expect, it } from "vitest";
import { check, compareScores } from "../../src/check/index.ts";
import { makeCore } from "../../src/engine/core.ts";
import { readyPlan } from "../readyplan.ts";

describe("the core", () => {
  it("packs the demo plan without a breach, all must-do tasks placed, and never below greedy or the day in hand", async () => {
    const plan = readyPlan("demo");
    const core = makeCore(() => 0);
    const first = await core.pack(plan, { seed: 3, seconds: 60, iterations: 400 });
    expect(first.verdict).toEqual(check(plan, first.schedule));
    expect(first.verdict.score).toMatchObject({ breaches: 0, mustLeftOut: 0 });
    expect(compareScores(first.verdict.score, first.greedy)).toBeLessThanOrEqual(0);

    const again = await core.pack(plan, { seed: 4, seconds: 60, iterations: 1, from: first.schedule });
    expect(compareScores(again.verdict.score, first.verdict.score)).toBeLessThanOrEqual(0);
  });

  it("gives the best so far when it is cancelled, and reports schedules that the judge accepts", async () => {
    const plan = readyPlan("small");
    let now = 0;
    const control = new AbortController();
    const seen: number[] = [];
    const report = await makeCore(() => (now += 0.005)).pack(
      plan,
      { seed: 1, seconds: 1e6 },
      {
        report: (progress) => {
          if (progress.schedule) seen.push(check(plan, progress.schedule).score.breaches);
          if (progress.iterations > 50) control.abort();
        },
        signal: control.signal,
      },
    );
    expect(seen.length).toBeGreaterThan(0);
    expect(seen.every((breaches) => breaches === 0)).toBe(true);
    expect(report.verdict.score).toMatchObject({ breaches: 0, mustLeftOut: 0 });
  });

  it("never calls a sound packed day broken in the reasons for its bench", async () => {
    const plan = readyPlan("demo");
    const core = makeCore(() => 0);
    for (const seed of [1, 2, 3]) {
      const { schedule } = await core.pack(plan, { seed, seconds: 60, iterations: 150 });
      const reasons = await core.benchReasons(plan, { schedule });
      expect(reasons.length).toBe(plan.tasks.length - schedule.placements.length);
      for (const { sentence } of reasons) expect(sentence).not.toMatch(/breaks rules/);
    }
  });

  it("puts a day on whole minutes and has it judged again", async () => {
    const plan = readyPlan("demo");
    const core = makeCore(() => 0);
    const rough = { ...plan, rules: { ...plan.rules, startGridS: 1 } };
    const { schedule } = await core.pack(rough, { seed: 1, seconds: 60, iterations: 150 });
    expect(schedule.placements.some(({ startS }) => startS % 60 !== 0)).toBe(true);
    const made = await core.gridded(plan, { schedule });
    expect(made.verdict).toEqual(check(plan, made.schedule));
    expect(made.verdict.score.breaches).toBe(0);
    const off = made.schedule.placements.filter(({ startS }) => startS % 60 !== 0).map(({ task }) => task);
    expect(made.left.map(({ task }) => task).sort()).toEqual(off.sort());
    expect(made.moved.length).toBeGreaterThan(5);
  });
});
