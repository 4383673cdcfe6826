import { describe, expect, test } from "vitest";
import { breachesOf, only, pair } from "./pair.ts";
import { at, place, remote, task, tinyPlan, type TinyParts } from "./tinyPlan.ts";

/** EV1 fuels the unit at b from 2000 to 2600: hot from then on within `radiusM`. EV2 works at a, 300 m away. */
const plan = (
  otherS: number,
  radiusM: number,
  keepOut: { afterTask?: string; exemptTasks?: string[] } = { afterTask: "fuel" },
  more: TinyParts = {},
) =>
  tinyPlan({
    tasks: [task("fuel", "b"), task("other", "a")],
    placements: [at("fuel", 2000), at("other", otherS, ["ev2"])],
    site: {
      keepOuts: [
        {
          id: "hot",
          name: "the hot unit",
          kind: "hot",
          shape: { type: "disc", eastM: 600, northM: 0, radiusM },
          ...keepOut,
        },
      ],
    },
    ...more,
  });

describe("clear of heat", () => {
  pair("hot-keep-out", {
    breaks: ["under way inside for a second of heat", plan(2001, 301)],
    holds: ["done as the heat begins", plan(2000, 301)],
  });
  pair("hot-keep-out", {
    breaks: ["a metre inside", plan(5000, 301)],
    holds: ["on the rim", plan(5000, 300)],
  });

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
