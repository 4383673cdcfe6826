import { describe, expect, it } from "vitest";
import { check } from "../../src/check/index.ts";
import type { Plan } from "../../src/plan/index.ts";
import { benchReasons, packRun, whyRun } from "../../src/solver/index.ts";
import { mend } from "./mended.ts";
import { at, remote, task, tinyPlan } from "../check/tinyPlan.ts";

const WORDS =
  "Walking is planned at 3 m/s and back at 1 m/s; the fastest timed in a suit is 7.0 km/h, 1.944 m/s.";
const fast = (level: "breach" | "warning" = "breach"): Plan =>
  tinyPlan({
    tasks: [task("work", "a", { must: true }), task("far", null)],
    rules: { walking: { speedMs: 3 }, walkback: { level } },
  });

/** walking-physics: where the plan walks faster than anybody did in a suit, nobody goes out. */
describe("walking that nobody can do", () => {
  it("places remote work only, and says why the rest is on the bench", () => {
    const run = packRun(fast(), { seed: 1, iterations: 50, clock: () => 0 });
    while (run.step(1)) continue;
    const schedule = run.best();
    expect(schedule.placements.map((one) => one.task)).toEqual(["far"]);
    expect(check(fast(), schedule).score.breaches).toBe(0);
    expect(benchReasons(fast(), schedule)).toEqual([
      expect.objectContaining({ task: "work", fitsAt: null, sentence: WORDS }),
    ]);
  });

  it("is no flight rule that a warning could lift", () => {
    expect(benchReasons(fast("warning"), { placements: [] })[0]!.sentence).toBe(WORDS);
  });

  it("is what a conflict names, and nothing that could be given up", () => {
    const run = whyRun(fast(), { placements: [] }, "work", { seed: 1, clock: () => 0 });
    while (run.step(1)) continue;
    const report = run.report();
    expect(report.conflict?.causes.map((one) => one.kind)).toEqual(["walking-physics"]);
    expect(report.conflict?.causes[0]).toMatchObject({
      sentence: WORDS,
      owner: "what people in suits can do",
    });
    expect(report.relaxations).toEqual([]);
  });

  it("is mended by nobody going out", () => {
    const broken = tinyPlan({
      tasks: [task("work", "a"), task("far", null)],
      placements: [at("work", 2000), remote("far", 0)],
      rules: { walking: { speedMs: 3 } },
    });
    expect(check(broken).score.breaches).toBe(1);
    const mended = mend(broken, broken.schedule, { seed: 1, iterations: 50, clock: () => 0 });
    expect(mended.schedule.placements.map((one) => one.task)).toEqual(["far"]);
  });
});
