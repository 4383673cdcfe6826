import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { plan } from "./cases/work-and-rest.ts";
import { breachesOf, only } from "./pair.ts";
import { at, task, tinyPlan, type TinyParts } from "./tinyPlan.ts";

describe("work and rest", () => {
  test("work-and-rest: rest effort and standing pauses one after the other add up", () => {
    // Pause 200, rest task 200, pause 200.
    const parts = (rest: "rest" | "geology"): TinyParts => ({
      tasks: [
        task("one", "a"),
        task("two", "a"),
        task("sit", "a", { duration: { likelyS: 200 }, effort: rest }),
      ],
      placements: [at("one", 2000), at("sit", 2800), at("two", 3200)],
    });
    expect(breachesOf(plan(0, 1500, 0, parts("rest")))).toEqual([]);
    expect(breachesOf(plan(0, 1500, 0, parts("geology")))).toEqual(["work-and-rest"]);
  });

  test("work-and-rest: pauses parted by work do not add up", () => {
    // Pause 300, 10 s of work, pause 300: nothing ends the stretch of 1500 + 610 + 1500 = 3610 s. In one piece the pauses would.
    const parts = (startS: number): TinyParts => ({
      tasks: [task("one", "a"), task("two", "a"), task("look", "a", { duration: { likelyS: 10 } })],
      placements: [at("one", 2000), at("look", startS), at("two", 3210)],
    });
    expect(only(plan(0, 3609, 0, parts(2900)), "work-and-rest")).toMatchObject({ need: 3609, have: 3610 });
    expect(breachesOf(plan(0, 3610, 0, parts(2900)))).toEqual([]);
    // The look right after the first task: 1510 s of work, 600 s of rest.
    expect(breachesOf(plan(0, 1510, 0, parts(2600)))).toEqual([]);
  });

  test("work-and-rest: a task of no length parts no pause, and the first of equal stretches is told of", () => {
    const parts: TinyParts = {
      tasks: [task("one", "a"), task("two", "a"), task("mark", "a", { duration: { likelyS: 0 } })],
      placements: [at("one", 2000), at("mark", 2900), at("two", 3200)],
    };
    // 300 s of pause, nothing done at 2900 s, 300 s of pause: a rest of 600 s with 1500 s of work on either side of it.
    expect(breachesOf(plan(0, 1500, 0, parts))).toEqual([]);
    const broken = only(plan(0, 1499, 0, parts), "work-and-rest");
    expect(broken).toMatchObject({ have: 1500, span: { startS: 1100, endS: 2600 } });
  });

  test("work-and-rest: work that overlaps counts to its later end, whichever began later", () => {
    // `one` goes on from 2000 to 8000 s; `two`, from 3000 to 3600 s, begins later and ends sooner. Then a wait of 1000 s.
    const both = (seconds: number): TinyParts => ({
      tasks: [task("one", "a", { duration: { likelyS: seconds } }), task("two", "a"), task("sit", "a")],
      placements: [at("one", 2000), at("two", 3000), at("sit", 9000)],
    });
    // From 1100 s to 8000 s: 6900 s, though the last task of the stretch ends at 3600 s.
    expect(only(plan(0, 100, 0, both(6000)), "work-and-rest")).toMatchObject({ have: 6900 });
  });

  test("work-and-rest: where a rest may be as short as one likes, tasks one after the other still have none between them", () => {
    const row: TinyParts = {
      tasks: [task("one", "a"), task("two", "a")],
      placements: [at("one", 2000), at("two", 2600)],
      rules: { work: { longestS: 2400, restS: 0 } },
    };
    // 600 + 300 + 600 + 600 + 300 + 600 = 3000 s without a pause.
    expect(only(tinyPlan(row), "work-and-rest")).toMatchObject({ have: 3000 });
    // One second of pause between the tasks is a rest: 1500 s on either side of it.
    expect(breachesOf(tinyPlan({ ...row, placements: [at("one", 2000), at("two", 2601)] }))).toEqual([]);
  });

  test("work-and-rest: waiting at the lander for the others is a rest before the airlock work", () => {
    const both = tinyPlan({
      tasks: [task("one", "a", { duration: { likelyS: 5000 } })],
      placements: [at("one", 2000)],
      rules: { work: { longestS: 6800, restS: 600 } },
    });
    // EV1: 600 + 300 + 5000 + 300 + 600 = 6800. EV2 waits 5600 s between the two airlock works.
    expect(breachesOf(both)).toEqual([]);
  });

  test("work-and-rest is tight when less than the plan's time is to spare, and a warning never breaks", () => {
    expect(only(plan(600, 1600, 101), "work-and-rest").level).toBe("tight");
    expect(check(plan(600, 1600, 100)).findings).toEqual([]);
    const warned = plan(600, 100, 0, { rules: { work: { longestS: 100, restS: 600, level: "warning" } } });
    expect(only(warned, "work-and-rest").level).toBe("tight");
  });
});
