import { describe, expect, it } from "vitest";
import { judgeFor } from "../../src/check/index.ts";
import { instant } from "../../src/kernel/index.ts";
import { parse, type Schedule } from "../../src/plan/index.ts";
import { largePlan } from "../../src/plan/large/index.ts";
import { NO_FLOOR } from "../../src/solver/network/board.ts";
import { compile } from "../../src/solver/problem/compile.ts";
import { compiled } from "../../src/solver/problem/known.ts";
import { Day } from "../../src/solver/network/day.ts";
import { loadSchedule, scheduleOf } from "../../src/solver/network/placing.ts";
import { read, Verifier } from "../../src/solver/network/verify.ts";
import { packed } from "../solver/question/why/packed.ts";
import { jolt } from "./jolt.ts";
import { randomPlan } from "./randomPlan.ts";

/** What the maker takes into its hands: any sound schedule, whoever made it, and however it waits and rests. */

/** Later starts from the last placement to the first, each as far as the schedule stays sound. */
function spread(schedule: Schedule, sound: (one: Schedule) => boolean): Schedule {
  let placements = [...schedule.placements];
  const order = [...placements].sort((a, b) => b.startS - a.startS);
  for (const { task } of order) {
    for (const byS of [1800, 437, 60]) {
      const later = placements.map((one) =>
        one.task === task ? { ...one, startS: instant(one.startS + byS) } : one,
      );
      if (sound({ placements: later })) placements = later;
    }
  }
  return { placements };
}

describe("laying a schedule", () => {
  it("leaves nothing out of any sound schedule, and what it laid is sound", () => {
    let sound = 0;
    for (let seed = 20_000; seed < 20_500; seed += 1) {
      const plan = randomPlan(seed, {
        tasks: 4 + (seed % 17),
        crew: 1 + (seed % 3),
        evas: 1 + (seed % 2),
        places: 2 + (seed % 9),
        features: (1 + (seed % 3)) / 3,
      });
      const judge = judgeFor(plan);
      const problem = compile(plan);
      const verifier = new Verifier(problem);
      const isSound = (one: Schedule): boolean => {
        const { placings, unread } = read(problem, one);
        return unread.length === 0 && verifier.holds(placings);
      };
      const base = packed(plan, 8, seed);
      const tries = [base, spread(base, isSound)];
      for (let k = 0; k < 6; k += 1) tries.push(jolt(plan, base, seed * 10 + k));
      for (const schedule of tries) {
        if (judge(schedule).score.breaches > 0) continue;
        sound += 1;
        const day = new Day(compiled(plan, schedule));
        expect({ seed, leftOut: loadSchedule(day, schedule) }).toEqual({ seed, leftOut: 0 });
        const laid = scheduleOf(day.board);
        expect({ seed, breaches: judge(laid).score.breaches }).toEqual({ seed, breaches: 0 });
        expect(laid.placements).toHaveLength(schedule.placements.length);
      }
    }
    // The comparison is worth something: many schedules.
    expect(sound).toBeGreaterThan(1000);
  });

  it("holds the starts of a day that only holds where it stands, and lets the others slide", () => {
    let held = 0;
    for (const seed of [1, 2, 3, 4]) {
      const read = parse(largePlan());
      if (!read.ok) throw new Error("the large plan does not parse");
      // To the second some of its days hold only where they stand.
      const plan = { ...read.value, rules: { ...read.value.rules, startGridS: 1 } };
      const schedule = packed(plan, 8, seed);
      const day = new Day(compiled(plan, schedule));
      expect({ seed, leftOut: loadSchedule(day, schedule) }).toEqual({ seed, leftOut: 0 });
      expect({ seed, breaches: judgeFor(plan)(scheduleOf(day.board)).score.breaches }).toEqual({
        seed,
        breaches: 0,
      });
      const floors = day.board.floorS.filter((floorS) => floorS !== NO_FLOOR).length;
      expect(floors).toBeLessThan(schedule.placements.length);
      if (floors > 0) held += 1;
    }
    expect(held).toBeGreaterThan(0);
  });
});
