import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { ChancesReport } from "../../../src/answers/index.ts";
import { instant } from "../../../src/kernel/index.ts";
import { parseText, type Plan, type Schedule } from "../../../src/plan/index.ts";
import { glanceRun, oddsRun } from "../../../src/solver/simulate/index.ts";
import { at, eva, task, tinyPlan } from "../../check/tinyPlan.ts";
import { samplePlan } from "../../exchange/samplePlan.ts";
import { smallAll } from "../../plan/witness.ts";
import { demoDay } from "../question/late/demoDay.ts";

function ready(name: string): Plan {
  const read = parseText(readFileSync(`public/plans/${name}.json`, "utf8"));
  if (!read.ok) throw new Error(JSON.stringify(read.error));
  return read.value;
}

function glanceOf(plan: Plan, schedule: Schedule = plan.schedule, days = 3): ChancesReport {
  const run = glanceRun(plan, schedule, days, () => 0);
  while (run.step(Infinity));
  return run.report();
}

/** All tasks so many seconds later. */
function later({ placements }: Schedule, byS: number): Schedule {
  return { placements: placements.map((one) => ({ ...one, startS: instant(one.startS + byS) })) };
}

describe("what is always in sight", () => {
  it.each([
    ["the small plan", ready("small"), smallAll],
    ["the demo plan", ready("demo"), demoDay],
    ["the demo plan with starts off the grid", ready("demo"), later(demoDay, 7)],
    ["the sample plan", samplePlan(), samplePlan().schedule],
  ] as [string, Plan, Schedule][])("is what the odds say on as many days: %s", (_, plan, schedule) => {
    // Few, then more of the same plan: the first days of many are the few.
    for (const days of [60, 200]) {
      const glance = glanceOf(plan, schedule, days);
      const odds = oddsRun(plan, schedule, { days, seed: 1, shape: "pert", clock: () => 0 });
      while (odds.step(Infinity));
      const { home, must, whole, worth, tasks, mustOnBench, crew, wish } = odds.report();
      expect(glance).toMatchObject({ days, home, must, whole, mustOnBench, crew, wish });
      expect(glance.meanWorth).toBeCloseTo(worth.mean, 9);
      expect(glance.tasks.map(({ task: id, done }) => [id, done.count])).toEqual(
        tasks.map(({ task: id, done }) => [id, done.count]),
      );
    }
  });

  it("names for each task why it is mostly missed, as the odds do", () => {
    const glance = glanceOf(ready("demo"), demoDay, 200);
    const odds = oddsRun(ready("demo"), demoDay, { days: 200, seed: 1, shape: "pert", clock: () => 0 });
    while (odds.step(Infinity));
    const { spoils } = odds.report();
    expect(spoils.length).toBeGreaterThan(0);
    for (const { task: id, reason } of spoils)
      expect(glance.tasks.find((one) => one.task === id)!.reason).toBe(reason);
    for (const one of glance.tasks) expect(one.reason === null).toBe(one.done.count === 200);
  });

  it("says unknown of no days", () => {
    expect(glanceOf(ready("small"), smallAll, 0).home.words).toBe("unknown");
  });
});

describe("slack: the latest start less the expected one", () => {
  // Egress work 600 s, 300 s to `a`, 600 s of work, 300 s home, ingress work 600 s; the EVA may last 3,600 s. Nothing spreads.
  const evas = [eva("eva-1", { longestS: 3600 })];

  it("of one must-do task is what the longest EVA leaves: 3600 - 600 - 300 - 600 - 300 - 600", () => {
    const plan = tinyPlan({ evas, tasks: [task("m", "a", { must: true })], placements: [at("m", 1000)] });
    expect(glanceOf(plan).tasks).toMatchObject([{ task: "m", slackS: 1200 }]);
  });

  it("of optional work before it is what the must-do task leaves, and both have the same: 1200 - 600", () => {
    const plan = tinyPlan({
      evas,
      tasks: [task("o", "a"), task("m", "a", { must: true })],
      placements: [at("o", 1000), at("m", 1600)],
    });
    expect(glanceOf(plan).tasks.map(({ slackS }) => slackS)).toEqual([600, 600]);
  });

  it("of must-do work does not count optional work after it, which is left out for it", () => {
    const plan = tinyPlan({
      evas,
      tasks: [task("m", "a", { must: true }), task("o", "a")],
      placements: [at("m", 1000), at("o", 1600)],
    });
    expect(glanceOf(plan).tasks.map(({ slackS }) => slackS)).toEqual([1200, 600]);
  });

  it("ends with the window: 1100 - 1000", () => {
    const windows = [{ startS: 1000, endS: 1700 }];
    const plan = tinyPlan({
      evas,
      tasks: [task("m", "a", { must: true, windows })],
      placements: [at("m", 1000)],
    });
    expect(glanceOf(plan).tasks).toMatchObject([{ slackS: 100 }]);
  });

  it("of a day on which the task is missed is none: nothing is gained by what never began", () => {
    // The task before takes its likely 600 s or up to 3,000 s: on the late days the window of `m` is over before it begins.
    const spread = { likelyS: 600, lowS: 600, highS: 3000 };
    const windows = [{ startS: 1000, endS: 2400 }];
    const plan = tinyPlan({
      tasks: [task("o", "a", { must: true, duration: spread }), task("m", "a", { must: true, windows })],
      placements: [at("o", 900), at("m", 1500)],
    });
    const [, m] = glanceOf(plan, plan.schedule, 200).tasks;
    expect(m!.done.count).toBeGreaterThan(0);
    expect(m!.done.count).toBeLessThan(200);
    // Latest start 1800: had `o` taken no time beyond its likely, 300 s were to spare; every day has less.
    expect(m!.slackS!).toBeLessThan(300);
  });

  it("of work without crew after which nothing must come ends with the stay: 72000 - 600", () => {
    const plan = tinyPlan({
      tasks: [task("r", null)],
      placements: [{ task: "r", startS: 0, crew: [], eva: null }],
    });
    expect(glanceOf(plan).tasks).toMatchObject([{ task: "r", slackS: 71_400 }]);
  });
});
