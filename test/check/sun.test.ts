import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { lit, plan, range, site } from "./cases/sun.ts";
import { only } from "./pair.ts";
import { at, remote, task, tinyPlan } from "./tinyPlan.ts";

describe("sun elevation", () => {
  test("sun: begins no sooner than the sun is high enough", () => {
    expect(only(plan(lit.startS + 599), "sun").level).toBe("breach");
    expect(check(plan(lit.startS + 600)).findings).toEqual([]);
  });

  test("sun: unknown is a breach", () => {
    const unknown = tinyPlan({
      tasks: [task("photo", "a", { sun: range })],
      placements: [at("photo", 2000)],
    });
    expect(only(unknown, "sun")).toMatchObject({
      level: "breach",
      need: null,
      have: null,
      unit: "none",
    });
  });

  test("sun: unknown until somebody has said where and when the lander stands", () => {
    const guessed = (more: object, siteGiven: object) =>
      tinyPlan({
        tasks: [task("photo", null, { sun: range })],
        placements: [remote("photo", lit.endS - 600)],
        site: { ...site, ...siteGiven },
        more: { body: { ephemeris: "moon" }, ...more },
      });
    const { stay } = plan(lit.endS);
    const told = (toGive: readonly string[]) => ({ stay: { ...stay, toGive } });
    expect(only(guessed({}, { toGive: ["latDeg", "lonDeg"] }), "sun")).toMatchObject({
      level: "breach",
      have: null,
      sentence: expect.stringContaining(
        "where the sun stands is unknown until latitude and longitude are given",
      ),
    });
    expect(only(guessed(told(["touchdownUtc", "lengthS"]), {}), "sun").sentence).toContain(
      "where the sun stands is unknown until touchdown is given",
    );
    expect(check(guessed(told(["lengthS"]), {})).findings.map(({ rule }) => rule)).not.toContain("sun");
  });

  test("sun is tight when it may slip by less than the plan's time", () => {
    expect(only(plan(lit.endS - 100, 101), "sun")).toMatchObject({ level: "tight", have: 100 });
    expect(check(plan(lit.endS - 100, 100)).findings).toEqual([]);
  });
});
