import { describe, expect, it } from "vitest";
import type { CrewRules, OddsReport } from "../../../src/answers/index.ts";
import { check } from "../../../src/check/index.ts";
import { instant } from "../../../src/kernel/index.ts";
import { parse, type Plan, type Schedule } from "../../../src/plan/index.ts";
import { greedy } from "../../../src/solver/index.ts";
import { oddsRun } from "../../../src/solver/simulate/index.ts";
import { CARRIES_ON, acting } from "../../../src/solver/simulate/crew.ts";
import { randomPlan } from "../../properties/randomPlan.ts";
import { samplePlan } from "../../exchange/samplePlan.ts";
import { smallAll } from "../../plan/witness.ts";
import { demoDay } from "../question/late/demoDay.ts";
import { at, eva, task, tinyPlan } from "../../check/tinyPlan.ts";
import { readyPlan } from "../../readyplan.ts";

function oddsOf(
  plan: Plan,
  schedule: Schedule,
  days: number,
  more: { readonly seed?: number; readonly crew?: CrewRules } = {},
): OddsReport {
  const run = oddsRun(plan, schedule, { days, seed: 1, shape: "pert", clock: () => 0, ...more });
  while (run.step(Infinity));
  return run.report();
}

/** The same plan without any spread, and without what may go wrong. */
function exact(plan: Plan): Plan {
  return {
    ...plan,
    crew: plan.crew.map((member) => ({ ...member, workRateSpread: 0 })),
    equipment: plan.equipment.map((one) => ({ ...one, mishap: undefined })),
    tasks: plan.tasks.map((task) => ({
      ...task,
      mishap: undefined,
      duration: { likelyS: task.duration.likelyS },
    })),
  };
}

describe("a day without spread", () => {
  it.each([
    ["the small plan", exact(readyPlan("small")), smallAll],
    ["the demo plan", exact(readyPlan("demo")), demoDay],
    ["the large plan, packed greedily", exact(readyPlan("large")), greedy(exact(readyPlan("large")))],
    ["the sample plan", exact(samplePlan()), samplePlan().schedule],
  ] as [string, Plan, Schedule][])("is the day that the judge sees: %s", (_, plan, schedule) => {
    const verdict = check(plan, schedule);
    expect(verdict.score.breaches).toBe(0);
    const report = oddsOf(plan, schedule, 3, { crew: CARRIES_ON });
    expect(report.whole.count + report.mustOnBench.length).toBeGreaterThan(0);
    for (const { done, window } of report.tasks) {
      expect(done.count).toBe(3);
      expect(window?.count ?? 3).toBe(3);
    }
    expect(report.worth).toMatchObject({
      planned: verdict.score.worth,
      mean: verdict.score.worth,
      least: verdict.score.worth,
    });
    for (const { eva, closes, ingressS, plannedIngressS } of report.evas) {
      const outing = verdict.outings.find((one) => one.eva === eva)!;
      expect(closes.count).toBe(3);
      expect(plannedIngressS).toBe(outing.span.endS);
      expect(ingressS).toEqual(Array(5).fill(outing.span.endS));
    }
    expect(report.margins).toHaveLength(verdict.margins.length);
    for (const { eva, crew, consumable, stock, reserve, points } of report.margins) {
      const track = verdict.margins.find(
        (one) => one.eva === eva && one.crew === crew && one.consumable === consumable,
      )!;
      expect(stock).toBe(track.stock);
      expect(reserve).toBe(track.reserve);
      // At the limit of the EVA the suit is long off: what is left is what the judge has at ingress.
      const left = points.at(-1)!.left[2];
      expect(Math.abs(left - track.points.at(-1)!.value)).toBeLessThan(stock * 1e-6);
      for (const { atS, left: bands } of points) {
        expect(Math.abs(bands[0] - valueAt(track.points, atS))).toBeLessThan(stock * 1e-6);
      }
    }
    expect(report.sensitivities).toEqual([]);
    // A crew that acts has no reason to leave anything out or to break anything off.
    const acted = oddsOf(plan, schedule, 3, { crew: acting(0.5) });
    expect(acted.home.count).toBe(3);
    expect(acted.must.count).toBe(report.must.count);
    expect(acted.worth.mean).toBe(verdict.score.worth);
  });
});

describe("random days without spread", () => {
  it("are the days that the judge sees", () => {
    let placed = 0;
    for (let seed = 1; seed <= 60; seed += 1) {
      const plan = exact(
        randomPlan(seed, {
          tasks: 10 + (seed % 8),
          crew: 2 + (seed % 3),
          evas: 1 + (seed % 3),
          places: 5,
          features: seed % 2 === 0 ? 1 : 0.6,
        }),
      );
      const schedule = greedy(plan);
      const verdict = check(plan, schedule);
      if (verdict.score.breaches > 0) continue;
      const report = oddsOf(plan, schedule, 1, { crew: CARRIES_ON });
      placed += report.tasks.length;
      expect(report.unplayed).toEqual([]);
      expect(report.tasks.filter(({ done }) => done.count === 0)).toEqual([]);
      for (const { eva, closes, duration, ingressS } of report.evas) {
        expect(ingressS[2]).toBe(verdict.outings.find((one) => one.eva === eva)!.span.endS);
        expect(duration.count).toBe(1);
        // A reserve that is only a warning may be broken without a breach (S9); the odds say so all the same.
        if (plan.rules.reserve.level === "breach") expect(closes.count, `seed ${seed}`).toBe(1);
      }
    }
    expect(placed).toBeGreaterThan(150);
  });
});

describe("a day with a slow leg from the lander that nobody walks", () => {
  it("goes out when the judge has it, and nothing is missed", () => {
    const plan = tinyPlan({
      site: { legs: [{ from: "lander", to: "b", distanceM: 600, durationS: 9000, bothWays: false }] },
      evas: [eva("eva-1", { longestS: 20_000 })],
      tasks: [task("first", "a"), task("second", "b")],
      placements: [at("first", 2000), at("second", 3000)],
    });
    const verdict = check(plan);
    expect(verdict.score.breaches).toBe(0);
    const report = oddsOf(plan, plan.schedule, 1);
    expect(report.evas[0]!.limitS).toBe(verdict.outings[0]!.span.startS + plan.evas[0]!.longestS);
    expect(report.whole.count).toBe(1);
  });
});

function valueAt(points: readonly { readonly atS: number; readonly value: number }[], atS: number): number {
  const next = points.findIndex((point) => point.atS >= atS);
  if (next < 0) return points.at(-1)!.value;
  const b = points[next]!;
  const a = points[Math.max(0, next - 1)]!;
  return b.atS === a.atS ? b.value : a.value + ((b.value - a.value) * (atS - a.atS)) / (b.atS - a.atS);
}

describe("how a day is played", () => {
  // Four standard errors of a chance of 0.75 counted in 4,000 days.
  const FOUR_ERRORS = 4 * Math.sqrt((0.75 * 0.25) / 4000);

  /** Two tasks one after the other at the same place; only the first one's duration spreads. */
  const twoTasks = (second: object, links: object[] = []): Plan => {
    const input = tinyPlan();
    const made = parse({
      ...input,
      crew: input.crew.map((member) => ({ ...member, workRateSpread: 0 })),
      tasks: [
        {
          id: "first",
          name: "First",
          kind: "sampling",
          place: "a",
          duration: { lowS: 600, likelyS: 600, highS: 1200 },
          crew: { named: ["ev1"] },
        },
        {
          id: "second",
          name: "Second",
          kind: "sampling",
          place: "a",
          duration: { likelyS: 600 },
          crew: { named: ["ev1"] },
          worth: 10,
          ...second,
        },
      ],
      links,
    });
    if (!made.ok) throw new Error(JSON.stringify(made.error));
    return made.value;
  };
  const at = (task: string, startS: number) => ({
    task,
    eva: "eva-1",
    crew: ["ev1"],
    startS: instant(startS),
  });

  it("misses a window when it arrives too late for the likely time, as often as the triangle says", () => {
    // From 600 to 1200 with the top at 600 the chance of at most 600 + x is 1 - (1 - x / 600)^2: for x = 300, 0.75.
    const plan = twoTasks({ windows: [{ startS: 3000, endS: 6000 + 600 + 300 + 600 }] });
    const schedule = { placements: [at("first", 6000), at("second", 6600)] };
    const run = oddsRun(plan, schedule, {
      days: 4000,
      seed: 4,
      shape: "triangular",
      crew: CARRIES_ON,
      clock: () => 0,
    });
    while (run.step(Infinity));
    const { done, window } = run.report().tasks[1]!;
    expect(Math.abs(done.share - 0.75)).toBeLessThan(FOUR_ERRORS);
    expect(window).toEqual(done);
  });

  it("misses what a greatest lag has run out for, and what needs it", () => {
    // The lag counts from the first one's start: over after 900 s, so again 0.75.
    const plan = twoTasks({}, [
      {
        id: "soon",
        type: "lag",
        from: { task: "first", end: "start" },
        to: { task: "second", end: "start" },
        greatestS: 900,
        needs: "both",
      },
    ]);
    const schedule = { placements: [at("first", 6000), at("second", 6600)] };
    const run = oddsRun(plan, schedule, {
      days: 4000,
      seed: 4,
      shape: "triangular",
      crew: CARRIES_ON,
      clock: () => 0,
    });
    while (run.step(Infinity));
    const [first, second] = run.report().tasks;
    expect(Math.abs(second!.done.share - 0.75)).toBeLessThan(FOUR_ERRORS);
    expect(first!.done.count).toBe(second!.done.count);
  });

  it("says that a must-do task on the bench keeps every day from holding", () => {
    const plan = twoTasks({ must: true });
    const report = oddsOf(plan, { placements: [at("first", 6000)] }, 50);
    expect(report.mustOnBench).toEqual(["second"]);
    expect(report.must.count).toBe(0);
    expect(report.withoutSpread).toEqual([]);
  });

  it("turns back when the likely time would close the EVA too late, and finds the task that is to blame", () => {
    const plan = twoTasks({ must: true });
    const placements = [at("first", 6000), at("second", 6600)];
    const { span } = check(plan, { placements }).outings[0]!;
    const tight: Plan = {
      ...plan,
      evas: plan.evas.map((eva) => ({ ...eva, latestIngressS: instant(span.endS + 300) })),
    };
    const run = oddsRun(
      tight,
      { placements },
      {
        days: 4000,
        seed: 4,
        shape: "triangular",
        crew: CARRIES_ON,
        clock: () => 0,
      },
    );
    while (run.step(Infinity));
    const report = run.report();
    expect(report.evas[0]!.closes.count).toBe(4000);
    expect(Math.abs(report.must.share - 0.75)).toBeLessThan(FOUR_ERRORS);
    const [hurt] = report.sensitivities;
    expect(hurt!.task).toBe("first");
    expect(hurt!.worthGain).toBeCloseTo(10 * (1 - report.must.share), 9);
    expect(hurt!.gain).toBeCloseTo(1 - report.must.share, 12);
  });
});

describe("a run", () => {
  const plan = readyPlan("demo");
  const schedule = greedy(plan);

  it("gives the same report for the same seed however it is sliced, and another for another seed", () => {
    const whole = oddsOf(plan, schedule, 200, { seed: 9 });
    let now = 0;
    const sliced = oddsRun(plan, schedule, {
      days: 200,
      seed: 9,
      shape: "pert",
      clock: () => (now += 0.001),
    });
    let slices = 0;
    while (sliced.step(0.003)) slices += 1;
    expect(slices).toBeGreaterThan(20);
    expect(sliced.report()).toEqual(whole);
    expect(oddsOf(plan, schedule, 200, { seed: 10 }).evas).not.toEqual(whole.evas);
  });

  it("says of the crew's own caution what it says of the day, and compares with it on as many days", () => {
    // More days than a comparison of chances would need by itself: what stands beside the chances is of the same days.
    const report = oddsOf(plan, schedule, 1200, { crew: acting(0.5) });
    const { home, must, worth, otherwise } = report;
    expect(otherwise.byCaution.map(({ caution }) => caution)).toEqual([0, 0.25, 0.5, 0.75, 1]);
    expect(otherwise.byCaution[2]!.outcome).toEqual({ home, must, meanWorth: worth.mean });
    const outcomes = [...otherwise.without, ...otherwise.byCaution].map(({ outcome }) => outcome);
    expect(new Set(outcomes.map(({ must: { of } }) => of))).toEqual(new Set([1200]));
  });

  it("tells what it knows once all days are played, and each part as it comes, none of them twice", () => {
    const whole = oddsOf(plan, schedule, 200, { seed: 9 });
    expect(whole.pending).toEqual([]);
    let now = 0;
    const clock = (): number => (now += 0.001);
    const run = oddsRun(plan, schedule, { days: 200, seed: 9, shape: "pert", clock });
    const told = new Set<OddsReport | null>();
    do told.add(run.progress().report);
    while (run.step(0.003));
    told.add(run.progress().report);
    const [before, ...reports] = told;
    expect(before).toBeNull();
    expect(reports.map((one) => one?.pending)).toEqual([
      ["otherwise", "offers", "sensitivities"],
      ["offers", "sensitivities"],
      ["sensitivities"],
      [],
    ]);
    for (const one of reports)
      expect(one).toMatchObject({
        complete: true,
        home: whole.home,
        margins: whole.margins,
        spoils: whole.spoils,
      });
    expect(reports[1]?.otherwise).toEqual(whole.otherwise);
    expect(reports[2]?.offers).toEqual(whole.offers);
    expect(reports[3]).toEqual(whole);
  });

  it("can be broken off: the days so far, and no claim to be complete", () => {
    let now = 0;
    const run = oddsRun(plan, schedule, { days: 2000, seed: 1, shape: "pert", clock: () => (now += 1) });
    run.step(0.5);
    const report = run.report();
    expect(report.complete).toBe(false);
    expect(report.days).toBeGreaterThan(0);
    expect(report.days).toBeLessThan(2000);
    expect(report.margins).toEqual([]);
    expect(report.home.of).toBe(report.days);
  });

  it("keeps percentiles in order and inside what the suit holds", () => {
    const report = oddsOf(plan, schedule, 300);
    expect(report.margins.length).toBe(16);
    for (const { stock, points } of report.margins)
      for (const { left } of points) {
        expect([...left].sort((a, b) => a - b)).toEqual([...left]);
        expect(left[4]).toBeLessThanOrEqual(stock * (1 + 1e-7));
      }
  });
});
