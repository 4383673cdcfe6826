import { describe, expect, test } from "vitest";
import { sunOver, waysHome } from "../../src/check/index.ts";
import { tinyPlan, type TinyParts } from "./tinyPlan.ts";

/** From the tiny plan's b, 600 m out, everybody walks back at 1 m/s. */
const home = (parts: TinyParts = {}) => waysHome(tinyPlan(parts));
const leg = (from: string, to: string, bothWays: boolean) =>
  home({ site: { legs: [{ from, to, distanceM: 300, durationS: 300, bothWays }] } })("a").leg;

describe("ways home", () => {
  test("go straight on where nothing is in the way", () => {
    expect(home()("b")).toEqual({ through: ["b", "lander"], seconds: 600, leg: false });
  });

  test("are none where a place is walled off, or is not one", () => {
    const none = { through: [], seconds: null, leg: false };
    const wall = { type: "disc", eastM: 600, northM: 0, radiusM: 50 } as const;
    const walled = home({ site: { keepOuts: [{ id: "w", name: "w", kind: "walking", shape: wall }] } });
    expect(walled("b")).toEqual(none);
    expect(walled("nowhere")).toEqual(none);
    expect(walled("a").seconds).toBe(300);
  });

  test("say when a leg that the planner gave for that direction is a part of them", () => {
    expect(leg("a", "lander", false)).toBe(true);
    expect(leg("a", "lander", true)).toBe(true);
    expect(leg("lander", "a", true)).toBe(true);
    expect(leg("lander", "a", false)).toBe(false);
    // One that goes elsewhere is no part of it.
    expect(leg("a", "b", true)).toBe(false);
    expect(leg("b", "lander", true)).toBe(false);
  });

  test("have no sun over them where no sky is known", () => {
    expect(sunOver(tinyPlan())(0)).toBeNull();
  });
});
