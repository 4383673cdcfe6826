import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { plan, remoteAt } from "./cases/time-window.ts";
import { breachesOf, only } from "./pair.ts";

describe("time windows", () => {
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
