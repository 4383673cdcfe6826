import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { plan } from "./cases/given-legs.ts";
import { breachesOf, only } from "./pair.ts";
import { at, place, task } from "./tinyPlan.ts";

describe("given legs that beat physics", () => {
  test("nothing in no time is told in words, with no speed beside it", () => {
    expect(only(plan({ distanceM: 0, durationS: 0 }), "walking-physics")).toMatchObject({
      level: "breach",
      need: 600,
      have: 0,
      sentence:
        "The leg from lander to b is given as 0 m, shorter than the straight line of 600 m and takes 0 min, faster than anybody was timed in a suit (7.0 km/h); EV1 on eva-1 walks it.",
    });
  });

  test("the line rises with its places: 600 m out and 250 m up are 650 m", () => {
    const up = (distanceM: number) =>
      plan(
        { distanceM, durationS: 4000 },
        {
          placements: [at("work", 8000)],
          places: [place("lander", 0, 0), { ...place("b", 600, 0), upM: 250 }],
        },
      );
    expect(breachesOf(up(649))).toEqual(["walking-physics"]);
    expect(breachesOf(up(650))).toEqual([]);
    // A length in whole metres is no fault: the line to (601, 0) from (0.6, 0) is 600.4 m.
    const near = plan({}, { places: [place("lander", 0.6, 0), place("b", 601, 0)] });
    expect(breachesOf(near)).toEqual([]);
  });

  test("a leg between two places that an outing walks is a breach, told by who walks it", () => {
    // From b to c it is hypot(600, 400) = 721.1 m.
    const between = plan(
      { from: "b", to: "c", distanceM: 700, durationS: 800 },
      { tasks: [task("work", "b"), task("more", "c")], placements: [at("work", 4000), at("more", 8000)] },
    );
    expect(only(between, "walking-physics")).toMatchObject({ level: "breach", have: 700 });
    expect(only(between, "walking-physics").sentence).toMatch(/; EV1 on eva-1 walks it\.$/);
  });

  test("a leg that no outing walks is told as well, and is no breach", () => {
    const unused = plan({ to: "c", distanceM: 10, durationS: 600 });
    expect(only(unused, "walking-physics")).toMatchObject({ level: "tight", span: null });
    expect(check({ ...unused, schedule: { placements: [] } }).score.breaches).toBe(0);
  });

  test("no level of any rule makes it a warning", () => {
    const { rules } = plan({});
    const lenient = Object.fromEntries(
      Object.entries(rules).map(([group, rule]) => [
        group,
        typeof rule === "object" ? { ...rule, level: "warning" as const } : rule,
      ]),
    ) as typeof rules;
    expect(breachesOf({ ...plan({ distanceM: 100 }), rules: lenient })).toEqual(["walking-physics"]);
  });

  test("a leg that is walked faster than planned asks for more power, not only for less time", () => {
    const rateOf = (durationS: number) =>
      check(plan({ durationS })).outings[0]!.stretches.find((one) => one.kind === "traverse")!.metabolicW;
    expect(rateOf(900)).toBe(rateOf(600));
    expect(rateOf(400)).toBeGreaterThan(1.2 * rateOf(600));
  });

  test("the walk-back is that of somebody who walks the line, whatever the leg says", () => {
    expect(check(plan({ distanceM: 0, durationS: 0 })).walkbackS).toEqual({ work: 600 });
    // A longer leg is believed: 900 m at 1 m/s, and one that takes long takes long.
    expect(check(plan({ distanceM: 900, durationS: 900 })).walkbackS).toEqual({ work: 900 });
    expect(check(plan({ distanceM: 600, durationS: 1500 })).walkbackS).toEqual({ work: 1500 });
  });
});
