import { describe, expect, test } from "vitest";
import { instant } from "../../src/kernel/index.ts";
import { sunStretches } from "../../src/physics/index.ts";
import { check } from "../../src/check/index.ts";
import { only, pair } from "./pair.ts";
import { at, remote, task, tinyPlan } from "./tinyPlan.ts";

/** At 60 W on the equator the sun climbs through 5 to 14 degrees in this stay: about 17.7 h of it. */
const range = { leastDeg: 5, greatestDeg: 14 };
const site = { lonDeg: -60 };
const touchdownUtc = "2031-04-05T06:07:00Z";
const lit = sunStretches(Date.parse(touchdownUtc), { latDeg: 0, lonDeg: -60, radiusM: 1_737_400 }, range, {
  startS: instant(0),
  endS: instant(72_000),
})[0]!;

/** Remote work of 600 s that ends `endS` after touchdown. */
const plan = (endS: number, tightS = 0) =>
  tinyPlan({
    tasks: [task("photo", null, { sun: range })],
    placements: [remote("photo", endS - 600)],
    site,
    rules: { tightS },
    more: { body: { ephemeris: "moon" } },
  });

describe("sun elevation", () => {
  pair("sun", {
    breaks: ["ends a second after the sun has climbed too high", plan(lit.endS + 1)],
    says: { need: 0, have: -1 },
    holds: ["ends as the sun reaches the limit", plan(lit.endS)],
  });

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
