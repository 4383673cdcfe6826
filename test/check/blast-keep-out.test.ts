import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { breachesOf, only, pair } from "./pair.ts";
import { at, eva, place, remote, task, tinyPlan } from "./tinyPlan.ts";

/** An instrument taken from near the lander to `eastM` east of it. */
const plan = (eastM: number, instrument = true, level: "breach" | "warning" = "breach") =>
  tinyPlan({
    places: [place("lander", 0, 0), place("near", 10, 0), place("spot", eastM, 0)],
    evas: [eva("eva-1", { crew: ["ev1"] })],
    tasks: [task("deploy", "near", { endPlace: "spot", instrument })],
    placements: [at("deploy", 2000)],
    rules: { blast: { leastM: 91.4, level } },
  });

describe("clear of the ascent blast", () => {
  pair("blast-keep-out", {
    breaks: ["91.3 m from the lander, 91.4 m asked for", plan(91.3)],
    says: { need: 91.4, have: 91.3 },
    holds: ["91.4 m from the lander", plan(91.4)],
  });

  test("blast-keep-out is about instruments only", () => {
    expect(breachesOf(plan(20, false))).toEqual([]);
  });

  const unsaid = (eastM: number, more: Partial<Parameters<typeof task>[2]>) =>
    tinyPlan({
      places: [place("lander", 0, 0), place("spot", eastM, 0)],
      evas: [eva("eva-1", { crew: ["ev1"] })],
      tasks: [task("deploy", "spot", more)],
      placements: [at("deploy", 2000)],
      rules: { blast: { leastM: 91.4 } },
    });

  test("blast-keep-out is about every deployment that does not say otherwise, and about no other work", () => {
    expect(breachesOf(unsaid(91.3, { kind: "deployment" }))).toEqual(["blast-keep-out"]);
    expect(breachesOf(unsaid(91.4, { kind: "deployment" }))).toEqual([]);
    expect(breachesOf(unsaid(20, { kind: "sampling" }))).toEqual([]);
  });

  test("blast-keep-out says of a deployment that is switched off and too near that nothing checks it", () => {
    const off = only(unsaid(91.3, { kind: "deployment", instrument: false }), "blast-keep-out");
    expect(off.level).toBe("tight");
    expect(off.sentence).toMatch(/instrument switched off: not checked against the ascent blast/);
    expect(check(unsaid(91.4, { kind: "deployment", instrument: false })).findings).toEqual([]);
  });

  test("blast-keep-out says nothing of an instrument that is nowhere", () => {
    const nowhere = tinyPlan({
      tasks: [task("call", null, { instrument: true })],
      placements: [remote("call", 2000)],
    });
    expect(breachesOf(nowhere)).toEqual([]);
  });

  test("blast-keep-out as a warning is tight, and tight within 5 %", () => {
    expect(only(plan(20, true, "warning"), "blast-keep-out").level).toBe("tight");
    // 91.4 * 1.05 = 95.97.
    expect(only(plan(95.9), "blast-keep-out").level).toBe("tight");
    expect(check(plan(96)).findings).toEqual([]);
  });
});
