import { describe, expect, it } from "vitest";
import type { Wished } from "../../../src/answers/index.ts";
import { check } from "../../../src/check/index.ts";
import { duration, instant } from "../../../src/kernel/index.ts";
import type { Plan, Schedule } from "../../../src/plan/index.ts";
import { packRun } from "../../../src/solver/pack.ts";
import { oddsRun } from "../../../src/solver/simulate/index.ts";
import { acting } from "../../../src/solver/simulate/crew.ts";
import { compile } from "../../../src/solver/problem/compile.ts";
import { Day } from "../../../src/solver/network/day.ts";
import { loadSchedule } from "../../../src/solver/network/placing.ts";
import { Days } from "../../../src/solver/simulate/days.ts";
import { stageOf } from "../../../src/solver/simulate/stage.ts";
import { DayTrial } from "../../../src/solver/wish/trial.ts";
import { curveRun, wishRun } from "../../../src/solver/wish/index.ts";
import type { WishSettings } from "../../../src/solver/wish/run.ts";
import { at, eva, task, tinyPlan } from "../../check/tinyPlan.ts";
import { randomPlan } from "../../properties/randomPlan.ts";

function driven(run: ReturnType<typeof wishRun>): readonly Wished[] {
  while (run.step(Infinity));
  return run.best();
}

const settings = (seed: number, iterations: number): WishSettings => ({ seed, iterations, clock: () => 0 });

/** `plan` with spreads that hurt. */
function spread(plan: Plan): Plan {
  return {
    ...plan,
    tasks: plan.tasks.map((one) => {
      const { likelyS } = one.duration;
      return {
        ...one,
        duration: { likelyS, lowS: duration(Math.floor(likelyS * 0.8)), highS: duration(likelyS * 2) },
      };
    }),
  };
}

describe("a day packed for the wish", () => {
  it("finds nothing where nothing is asked for or nobody goes out", () => {
    for (const plan of [tinyPlan({ tasks: [] }), tinyPlan({ tasks: [task("one", "a")], evas: [] })])
      for (const run of [wishRun(plan, settings(1, 400)), curveRun(plan, settings(1, 400))])
        for (const { schedule } of driven(run)) expect(schedule.placements).toEqual([]);
  });

  it("leaves out what would cost the must-do task its chance, and says what it comes to", () => {
    // Must-do at a until 6000 at the latest: out at 4200 - 900. One optional task of 600 s before it is fine at likely
    // durations and ruins it on most days, as it may last 1800 s; after it there is all the time.
    const tasks = [
      task("must", "a", {
        must: true,
        worth: 10,
        crew: { named: ["ev1"] },
        windows: [{ startS: 4000, endS: 6000 }],
      }),
      task("long", "a", {
        worth: 5,
        crew: { named: ["ev1"] },
        duration: { lowS: 500, likelyS: 600, highS: 1800 },
      }),
    ];
    const plan = tinyPlan({ tasks, evas: [eva("eva-1", { earliestEgressS: 3800 })] });
    const [best] = driven(wishRun(plan, settings(1, 400)));
    const starts = Object.fromEntries(
      best!.schedule.placements.map((one) => [one.task, one.startS as number]),
    );
    expect(starts["must"]).toBeLessThan(starts["long"]!);
    expect(best!.outcome!.must.count).toBe(best!.days);
    expect(best!.meets).toBe(true);
    expect(best!.outcome!.meanWorth).toBe(15);
  });

  it("breaks no rule, has every must-do task that it can, and is the same for the same seed and iterations", () => {
    let days = 0;
    for (let seed = 1; seed <= 6; seed += 1) {
      const plan = spread(
        randomPlan(seed, { tasks: 12, crew: 2, evas: 1 + (seed % 2), places: 5, features: 0.5 }),
      );
      const [one] = driven(wishRun(plan, settings(seed, 300)));
      if (one!.outcome === null) continue;
      const { score } = check(plan, one!.schedule);
      expect(score.breaches, `seed ${seed}`).toBe(0);
      expect(score.mustLeftOut).toBe(0);
      expect(driven(wishRun(plan, settings(seed, 300)))).toEqual([one]);
      days += 1;
    }
    expect(days).toBeGreaterThan(2);
  });

  it("gives two tasks that must have the same crew to nobody else", () => {
    // Both have to begin at 900: one person can do one of them only.
    const windows = [{ startS: 900, endS: 1500 }];
    const plan = tinyPlan({
      tasks: [task("one", "a", { worth: 5, windows }), task("two", "a", { worth: 4, windows })],
      evas: [eva("eva-1")],
      more: { links: [{ id: "alike", type: "crew", tasks: ["one", "two"], crew: "same" }] },
    });
    for (let seed = 1; seed <= 4; seed += 1) {
      const [best] = driven(wishRun(plan, settings(seed, 200)));
      expect(check(plan, best!.schedule).score.breaches, `seed ${seed}`).toBe(0);
      expect(best!.schedule.placements.map((one) => one.task)).toEqual(["one"]);
      const likely = packRun(plan, { seed, iterations: 300, clock: () => 0 });
      while (likely.step(Infinity));
      expect(check(plan, likely.best()).score.breaches, `seed ${seed}`).toBe(0);
    }
  });

  it("comes to what the odds say of it, within the error of counting", () => {
    const plan = spread(
      tinyPlan({
        tasks: ["one", "two", "three"].map((id) =>
          task(id, "a", { must: id === "two", worth: 5, crew: { named: ["ev1"] } }),
        ),
        evas: [eva("eva-1", { longestS: 4600 })],
      }),
    );
    const [best] = driven(wishRun(plan, settings(5, 300)));
    const run = oddsRun(plan, best!.schedule, {
      days: 4000,
      seed: 77,
      shape: "pert",
      crew: acting(best!.caution),
      clock: () => 0,
    });
    while (run.step(Infinity));
    const { must, home, worth } = run.report();
    // Two counts of 4,000 days each: four standard errors of their difference, at most 4 sqrt(2 / 16000) = 0.045.
    expect(Math.abs(must.share - best!.outcome!.must.share)).toBeLessThan(0.045);
    expect(Math.abs(home.share - best!.outcome!.home.share)).toBeLessThan(0.045);
    expect(Math.abs(worth.mean - best!.outcome!.meanWorth)).toBeLessThan(
      4 * Math.SQRT2 * worth.standardError + 1e-9,
    );
  });
});

describe("a day that holds only where somebody waits on purpose", () => {
  /**
   * Egress 0, one 900 to 1500, then 420 s of standing until two may begin at 1920 and no later, back 2820, in 3420: no rest of 600 s, and
   * 3420 s of work in a row where 3120 are allowed. With one from 1200 on it is egress 300, in 3420 (the latest): 3120 s in a row.
   */
  const plan = tinyPlan({
    evas: [eva("eva-1", { crew: ["ev1"], latestIngressS: 3420 })],
    tasks: [
      task("one", "a", { worth: 5 }),
      task("two", "a", { worth: 5, windows: [{ startS: 1920, endS: 2520 }] }),
    ],
    rules: { work: { longestS: 3120, restS: 600 } },
  });

  const from: Schedule = {
    placements: [at("one", 1200), at("two", 1920)].map((one) => ({ ...one, startS: instant(one.startS) })),
  };

  it("is played as it stands", () => {
    const problem = compile(plan);
    const day = new Day(problem);
    expect(loadSchedule(day, from)).toBe(0);
    const trial = new DayTrial(stageOf(problem), acting(0.25), new Days(problem, "pert", 10, 1), () => 0);
    expect(trial.lay(day.board)).toBe(true);
    expect(trial.day.board.worth).toBe(10);
  });

  it("is not lost where a pack for the wish begins with it", () => {
    const [best] = driven(wishRun(plan, { ...settings(1, 100), from }));
    expect(best!.outcome!.meanWorth).toBe(10);
    expect(check(plan, best!.schedule).score.breaches).toBe(0);
  });
});

describe("the curve", () => {
  it("has a day for each wish, the plan's among them, and asks no less of worth where it asks less of the chance", () => {
    const plan = spread(
      tinyPlan({
        tasks: ["one", "two", "three", "four"].map((id) =>
          task(id, "a", { must: id === "four", worth: 5, crew: { named: ["ev1"] } }),
        ),
        placements: [at("four", 5100)],
        evas: [eva("eva-1", { longestS: 4800 })],
      }),
    );
    const days = driven(curveRun(plan, settings(2, 600)));
    expect(days.map(({ wish }) => wish.must)).toEqual([0.5, 0.8, 0.9, 0.95, 0.99]);
    for (const { schedule } of days) expect(check(plan, schedule).score.breaches).toBe(0);
    const worths = days.map(({ outcome }) => outcome!.meanWorth);
    // The same pool serves all, so less of a wish never costs worth but for the error of counting 4,000 days.
    for (let k = 1; k < worths.length; k += 1) expect(worths[k]!).toBeLessThanOrEqual(worths[k - 1]! + 0.5);
  });
});
