import { describe, expect, it } from "vitest";
import { judgeFor } from "../../src/check/index.ts";
import { Day } from "../../src/solver/network/day.ts";
import { loadSchedule, scheduleOf } from "../../src/solver/network/placing.ts";
import { compile } from "../../src/solver/problem/compile.ts";
import { ownOf, readFinish } from "../../src/solver/search/finish.ts";
import { at, task, tinyPlan } from "../check/tinyPlan.ts";
import { packedPlan } from "./packedPlan.ts";

describe("what decides beside must-do work and worth", () => {
  it("is read off the board as the judge reads it off the schedule", () => {
    let seen = 0;
    for (let seed = 1; seed <= 60; seed += 1) {
      const plan = packedPlan(seed);
      // The plan's own schedule has some of the tasks, two minutes later every third.
      const own = plan.schedule.placements
        .filter((_, k) => k % 4 !== 3)
        .map((one, k) => (k % 3 === 0 ? { ...one, startS: (one.startS + 120) as typeof one.startS } : one));
      const before = { ...plan, schedule: { placements: own } };
      const day = new Day(compile(before, plan.schedule));
      loadSchedule(day, plan.schedule);
      const finish = { worstMargin: 0, changes: 0, walkM: 0, finishS: 0 };
      readFinish(day.board, ownOf(day.problem), finish);
      const { worstMargin, changes, walkM, finishS } = judgeFor(before)(scheduleOf(day.board)).score;
      expect(finish, `seed ${seed}`).toEqual({ worstMargin, changes, walkM, finishS });
      if (day.board.count > 0) seen += 1;
    }
    expect(seen).toBeGreaterThan(50);
  });

  it("counts the gauges of who goes out with nothing to do", () => {
    const wide = tinyPlan({ tasks: [task("scoop", "a")], placements: [at("scoop", 1000)] });
    const [suit, other] = wide.suits;
    // 50 W over the 2,200 s outside are 31 Wh.
    const plan = { ...wide, suits: [suit!, { ...other!, batteryWh: 40 }] };
    const day = new Day(compile(plan));
    expect(loadSchedule(day, plan.schedule)).toBe(0);
    const finish = { worstMargin: 0, changes: 0, walkM: 0, finishS: 0 };
    readFinish(day.board, ownOf(day.problem), finish);
    const { worstMargin, breaches } = judgeFor(plan)(scheduleOf(day.board)).score;
    expect(breaches).toBe(0);
    expect(worstMargin).toBeLessThan(2000);
    expect(finish.worstMargin).toBe(worstMargin);
  });
});
