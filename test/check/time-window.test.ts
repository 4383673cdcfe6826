import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { breachesOf, only, pair } from "./pair.ts";
import { at, remote, task, tinyPlan } from "./tinyPlan.ts";

/** A task of 600 s at 2000, to lie in one of `windows`. */
const plan = (windows: { startS: number; endS: number }[], tightS = 0) =>
  tinyPlan({ tasks: [task("one", "a", { windows })], placements: [at("one", 2000)], rules: { tightS } });

describe("time windows", () => {
  pair("time-window", {
    breaks: ["ends a second after its window", plan([{ startS: 2000, endS: 2599 }])],
    says: { need: 0, have: -1 },
    holds: ["fills its window to the second", plan([{ startS: 2000, endS: 2600 }])],
  });
  // The stay lasts 72 000 s.
  const remoteAt = (startS: number) =>
    tinyPlan({ tasks: [task("far", null)], placements: [remote("far", startS)] });
  pair("time-window", {
    breaks: ["remote work ends a second after liftoff", remoteAt(71_401)],
    says: { need: 0, have: -1 },
    holds: ["remote work ends at liftoff", remoteAt(71_400)],
  });

  test("time-window: two windows that touch are two windows", () => {
    const touching = [
      { startS: 1000, endS: 2300 },
      { startS: 2300, endS: 4000 },
    ];
    expect(breachesOf(plan(touching))).toEqual(["time-window"]);
  });

  test("time-window: remote work before touchdown is outside the stay", () => {
    expect(breachesOf(remoteAt(-1))).toEqual(["time-window"]);
    expect(breachesOf(remoteAt(0))).toEqual([]);
  });

  test("time-window is tight when it may slip by less than the plan's time", () => {
    const window = [{ startS: 1000, endS: 2700 }];
    expect(only(plan(window, 101), "time-window")).toMatchObject({ level: "tight", have: 100 });
    expect(check(plan(window, 100)).findings).toEqual([]);
  });
});
