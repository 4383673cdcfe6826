import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { heavensOf, taskSky } from "../../src/terrain/index.ts";
import { only, pair } from "./pair.ts";
import { remote, task, type TaskInput, tinyPlan } from "./tinyPlan.ts";

/** A bank 30 m high from 200 m east on keeps the lander in shadow for some hours after sunrise. */
const ground = {
  type: "grid" as const,
  westM: -700,
  southM: -700,
  cellM: 50,
  columns: 29,
  rows: 29,
  heights: Array.from({ length: 29 }, () =>
    Array.from({ length: 29 }, (_, column) => (column >= 18 ? 3000 : 0)).join(" "),
  ),
};
const site = { lonDeg: -60 };

/** Remote work of 600 s at the lander from `startS`. */
const plan = (startS: number, asks: Partial<TaskInput>, tightS = 0, more = {}) =>
  tinyPlan({
    tasks: [task("photo", null, asks)],
    placements: [remote("photo", startS)],
    site,
    rules: { tightS },
    more: { body: { ephemeris: "moon" }, ground, ...more },
  });
const sky = (asks: Partial<TaskInput>) => {
  const made = plan(0, asks);
  return taskSky(heavensOf(made), { ...made.stay, places: made.site.places }, made.tasks[0]!);
};
const lit = sky({ light: "lit" }).light![0]!;
/** The sun drifts from 91.140 to 91.156 degrees off the south in this stay. */
const facing = { leastDeg: 91.15, greatestDeg: 180, facingDeg: 180 };
const angled = sky({ sunAngle: facing }).sunAngle![0]!;

describe("light on the ground", () => {
  pair("light", {
    breaks: ["begins a second before the sun reaches it", plan(lit.startS - 1, { light: "lit" })],
    says: { need: 0, have: -1 },
    holds: ["begins as the sun reaches it", plan(lit.startS, { light: "lit" })],
  });
  pair("light", {
    breaks: ["in shadow: ends as the sun comes", plan(lit.startS - 600, { light: "shaded" })],
    says: { need: 0, have: -1 },
    holds: ["in shadow: ends a second before the sun comes", plan(lit.startS - 601, { light: "shaded" })],
  });

  test("light: the stretch is not the level horizon's", () => {
    expect(lit.startS).toBeGreaterThan(0);
    const level = { ...ground, heights: ground.heights.map((row) => row.replaceAll("3000", "0")) };
    expect(check(plan(0, { light: "lit" }, 0, { ground: level })).findings).toEqual([]);
  });

  test("light: unknown is a breach", () => {
    const unknown = plan(0, { light: "lit" }, 0, { body: { ephemeris: "none" } });
    expect(only(unknown, "light")).toMatchObject({ level: "breach", have: null, unit: "none" });
  });

  test("light without heights is unknown, the sun up or not, and a breach that says so", () => {
    for (const [want, words] of [
      ["lit", "the sun"],
      ["shaded", "shadow"],
    ] as const) {
      const { level, have, sentence } = only(plan(0, { light: want }, 0, { ground: undefined }), "light");
      expect([level, have]).toEqual(["breach", null]);
      expect(sentence).toContain(`wants its ground in ${words};`);
      expect(sentence).toMatch(
        /; sun up \d+\.\d° over a level horizon, shadow unknown: no heights are known there\.$/,
      );
    }
  });

  test("light is tight when it may slip by less than the plan's time", () => {
    const late = plan(lit.startS - 701, { light: "shaded" }, 101);
    expect(only(late, "light")).toMatchObject({ level: "tight", have: 100 });
  });
});

describe("sun and heading", () => {
  pair("sun-angle", {
    breaks: ["begins a second too early", plan(angled.startS - 1, { sunAngle: facing })],
    says: { need: 0, have: -1 },
    holds: ["begins as the angle is reached", plan(angled.startS, { sunAngle: facing })],
  });

  test("sun-angle: unknown is a breach", () => {
    const unknown = plan(0, { sunAngle: facing }, 0, { body: { ephemeris: "none" } });
    expect(only(unknown, "sun-angle")).toMatchObject({ level: "breach", have: null, unit: "none" });
  });
});

describe("Earth as a relay", () => {
  const call = (earthLink: boolean, lonDeg: number, more: object = { ground }, passes = 0) =>
    tinyPlan({
      tasks: [task("call", null, { relay: true })],
      placements: [remote("call", 2000)],
      site: { lonDeg },
      stay: {
        earthLink,
        relayPasses: ["pass"].slice(0, passes).map((id) => ({ id, name: id, startS: 0, endS: 9000 })),
      },
      more: { body: { ephemeris: "moon" }, ...more },
    });

  test("relay: the Earth over the horizon is one where it is a link", () => {
    expect(check(call(true, -60)).findings).toEqual([]);
    expect(only(call(false, -60), "relay").level).toBe("breach");
    expect(only(call(true, 150), "relay").level).toBe("breach");
  });

  test("relay: without heights the Earth in view is unknown, a breach unless a pass is given", () => {
    const unknown = only(call(true, -60, {}), "relay");
    expect([unknown.level, unknown.sentence]).toEqual([
      "breach",
      "call runs 0:33:20 MET to 0:43:20 MET and needs the relay; the stay has no relay pass. Whether the Earth is in view from there is unknown: no heights are known.",
    ]);
    expect(check(call(true, -60, {}, 1)).findings).toEqual([]);
  });
});
