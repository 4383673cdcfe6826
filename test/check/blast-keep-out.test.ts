import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { plan } from "./cases/blast-keep-out.ts";
import { breachesOf, only } from "./pair.ts";
import { at, eva, place, remote, task, tinyPlan } from "./tinyPlan.ts";

describe("clear of the ascent blast", () => {
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
