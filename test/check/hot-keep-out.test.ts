import { describe, expect, test } from "vitest";
import { plan } from "./cases/hot-keep-out.ts";
import { breachesOf, only } from "./pair.ts";
import { at, place, remote, task, tinyPlan } from "./tinyPlan.ts";

describe("clear of heat", () => {
  test("hot-keep-out without a source holds always, and for the source itself", () => {
    expect(breachesOf(plan(1000, 301, {}))).toEqual(["hot-keep-out", "hot-keep-out"]);
  });

  test("hot-keep-out lets exempt tasks in", () => {
    expect(breachesOf(plan(5000, 301, { afterTask: "fuel", exemptTasks: ["other"] }))).toEqual([]);
  });

  test("hot-keep-out: no heat while the source is on the bench", () => {
    expect(breachesOf(plan(5000, 301, undefined, { placements: [at("other", 5000, ["ev2"])] }))).toEqual([]);
  });

  test("hot-keep-out says nothing of remote work that is nowhere", () => {
    const nowhere = tinyPlan({
      tasks: [task("call", null)],
      placements: [remote("call", 2000)],
      site: {
        keepOuts: [
          { id: "hot", name: "hot", kind: "hot", shape: { type: "disc", eastM: 0, northM: 0, radiusM: 50 } },
        ],
      },
    });
    expect(breachesOf(nowhere)).toEqual([]);
  });

  test("hot-keep-out counts remote work that has a place", () => {
    const heated = plan(5000, 301, undefined, {
      tasks: [task("fuel", "b"), { ...task("other", null), place: "a" }],
      placements: [at("fuel", 2000), remote("other", 5000)],
    });
    expect(breachesOf(heated)).toEqual(["hot-keep-out"]);
  });

  test("hot-keep-out counts the end place of a carry", () => {
    const carry = plan(5000, 301, undefined, {
      places: [place("lander", 0, 0), place("a", 300, 0), place("b", 600, 0), place("c", 0, 400)],
      tasks: [task("fuel", "b"), task("other", "c", { endPlace: "a" })],
    });
    expect(only(carry, "hot-keep-out").sentence).toBe(
      "other is under way at a until 1:33:20 MET, inside the hot unit, which is hot from 0:43:20 MET.",
    );
  });
});
