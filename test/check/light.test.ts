import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { facing, ground, lit, plan } from "./cases/light.ts";
import { only } from "./pair.ts";
import { remote, task, tinyPlan } from "./tinyPlan.ts";

describe("light on the ground", () => {
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
