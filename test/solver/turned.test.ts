import { describe, expect, it } from "vitest";
import { judgeFor } from "../../src/check/index.ts";
import { instant } from "../../src/kernel/index.ts";
import type { Plan, Schedule } from "../../src/plan/index.ts";
import { compile } from "../../src/solver/problem/compile.ts";
import { Day } from "../../src/solver/network/day.ts";
import { benchReasons, fitBands, packRun } from "../../src/solver/index.ts";
import { mend } from "./mended.ts";
import { loadSchedule, scheduleOf } from "../../src/solver/network/placing.ts";
import { at, eva, task, tinyPlan } from "../check/tinyPlan.ts";
import { randomPlan } from "../properties/randomPlan.ts";
import { packed } from "./question/why/packed.ts";

/** EVAs of common crew that a schedule flies in another order than that of their earliest egress. */

/** A random plan whose two EVAs may be flown either way: the second opens after the first or, turned, before it. */
function eitherWay(seed: number): { plan: Plan; turned: Plan } {
  const shape = { tasks: 5 + (seed % 8), crew: 1 + (seed % 2), evas: 2, places: 3, features: (seed % 3) / 3 };
  const plan = randomPlan(seed, shape);
  const opening = (secondS: number): Plan => ({
    ...plan,
    evas: plan.evas.map((eva, e) => ({
      ...eva,
      crew: plan.crew.map(({ id }) => id),
      earliestEgressS: instant(e === 0 ? 60 : secondS),
      latestIngressS: instant(plan.stay.lengthS),
    })),
  });
  return { plan: opening(120), turned: opening(0) };
}

/** Sound schedules of plans whose EVAs open the other way round. */
function turnedDays(): { seed: number; turned: Plan; schedule: Schedule }[] {
  return Array.from({ length: 400 }, (_, k) => 60_000 + k).flatMap((seed) => {
    const { plan, turned } = eitherWay(seed);
    const schedule = packed(plan, 30, seed);
    const flown = new Set(schedule.placements.map(({ eva }) => eva).filter((eva) => eva !== null));
    if (flown.size < 2 || judgeFor(turned)(schedule).score.breaches > 0) return [];
    return loadSchedule(new Day(compile(turned)), schedule) === 0 ? [] : [{ seed, turned, schedule }];
  });
}

const days = turnedDays();

describe("EVAs flown in another order than they open", () => {
  it("are common enough here to tell", () => {
    expect(days.length).toBeGreaterThan(30);
  });

  it("are laid with nothing left out, soundly", () => {
    for (const { seed, turned, schedule } of days) {
      const day = new Day(compile(turned, schedule));
      expect({ seed, leftOut: loadSchedule(day, schedule) }).toEqual({ seed, leftOut: 0 });
      expect({ seed, breaches: judgeFor(turned)(scheduleOf(day.board)).score.breaches }).toEqual({
        seed,
        breaches: 0,
      });
    }
  });

  it("are kept when packing begins from them", () => {
    for (const { seed, turned, schedule } of days) {
      const judge = judgeFor(turned);
      const before = judge(schedule).score;
      const run = packRun(turned, { seed, iterations: 3, clock: () => 0, from: schedule });
      while (run.step(1)) continue;
      const after = judge(run.best()).score;
      expect({ seed, breaches: after.breaches }).toEqual({ seed, breaches: 0 });
      expect(after.mustLeftOut, `seed ${seed}`).toBeLessThanOrEqual(before.mustLeftOut);
      if (after.mustLeftOut === before.mustLeftOut)
        expect(after.worth, `seed ${seed}`).toBeGreaterThanOrEqual(before.worth);
    }
  });

  it("have bands in which the others slide, reasons that are known, and are mended in their order", () => {
    let slides = 0;
    let kept = 0;
    for (const { seed, turned, schedule } of days) {
      const judge = judgeFor(turned);
      const held = schedule.placements[seed % schedule.placements.length]!;
      for (const { fixed, sliding } of fitBands(turned, schedule, held.task))
        if (sliding.length > 0 && JSON.stringify(sliding) !== JSON.stringify(fixed)) slides += 1;
      for (const { sentence } of benchReasons(turned, schedule)) expect(sentence).not.toContain("unknown");
      const moved = { ...held, startS: instant(held.startS + 600) };
      const broken = {
        placements: schedule.placements.map((one) => (one === held ? moved : one)),
      };
      const { schedule: made } = mend(turned, broken, { seed, clock: () => 0, iterations: 4 });
      expect({ seed, breaches: judge(made).score.breaches }).toEqual({ seed, breaches: 0 });
      if (made.placements.length === schedule.placements.length) kept += 1;
    }
    expect(slides).toBeGreaterThan(20);
    expect(kept).toBe(days.length);
  });

  it("are thought of where a day is said to be the best of all", () => {
    // First the EVA that opens second: "early" is over at 2400 s, and "late" does not begin before 5000 s.
    const pinned = (id: string, on: string, startS: number) =>
      task(id, "a", { pin: { eva: on }, worth: 5, windows: [{ startS, endS: startS + 1000 }] });
    const parts = {
      tasks: [pinned("early", "eva-2", 1400), pinned("late", "eva-1", 5000)],
      evas: [eva("eva-1"), eva("eva-2", { earliestEgressS: 60 })],
    };
    const schedule = { placements: [at("early", 1400, ["ev1"], "eva-2"), at("late", 5000)] };
    const plan = tinyPlan({ ...parts, ...schedule });
    expect(judgeFor(plan)(plan.schedule).score).toMatchObject({ breaches: 0, worth: 10 });
    const packing = (from?: Schedule) => {
      const run = packRun(plan, { seed: 1, iterations: 50, proveSeconds: 1, clock: () => 0, from });
      while (run.step(1)) continue;
      return run.progress();
    };
    expect(packing(plan.schedule)).toMatchObject({ worth: 10, bound: 10 });
    const { worth, bound, stopped } = packing();
    expect(bound).toBe(10);
    if (worth < 10) expect(stopped).not.toBe("proved");
  });
});
