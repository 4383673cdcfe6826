import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { slopeW } from "../../src/physics/index.ts";
import type { PlanInput } from "../../src/plan/plan.ts";
import { alone, carry } from "./cases/inside-tasks.ts";
import { breachesOf, only } from "./pair.ts";
import { at, eva, place, task, tinyPlan } from "./tinyPlan.ts";

describe("walks inside tasks", () => {
  test("no level of any rule makes it a warning, and a short case that is too short is told", () => {
    const { rules } = carry(299);
    const lenient = Object.fromEntries(
      Object.entries(rules).map(([group, rule]) => [
        group,
        typeof rule === "object" ? { ...rule, level: "warning" as const } : rule,
      ]),
    ) as typeof rules;
    expect(breachesOf({ ...carry(299), rules: lenient })).toEqual(["walking-physics"]);
    const short = alone(task("carry", "a", { endPlace: "b", duration: { lowS: 299, likelyS: 600 } }));
    expect(only(short, "walking-physics")).toMatchObject({ level: "tight", need: 300, have: 299 });
  });

  test("says from where to where, and of a walk about one place no place", () => {
    expect(only(carry(299), "walking-physics").sentence).toMatch(/ walks 300 m from a to b, which takes /);
    const roam = alone(task("roam", "a", { walkM: 500, duration: { likelyS: 499 } }));
    expect(only(roam, "walking-physics").sentence).toMatch(/ walks 500 m, which takes /);
  });

  test("at least the way between the ends is walked, whatever the task says", () => {
    // 300 m out to a, 300 m inside, 600 m home from b.
    expect(check(carry(600)).walkedM).toEqual({ ev1: 1200, ev2: 0 });
    expect(check(carry(600, 350)).walkedM).toEqual({ ev1: 1250, ev2: 0 });
  });

  test("goes by the way between its ends, through other places where the line is closed", () => {
    const wall = {
      id: "pit",
      name: "pit",
      kind: "walking" as const,
      shape: { type: "disc" as const, eastM: 150, northM: 200, radiusM: 10 },
    };
    const round = alone(task("carry", "a", { endPlace: "c", duration: { likelyS: 1400 } }), {
      site: { keepOuts: [wall] },
      rules: { separation: { greatestM: 5000 } },
      evas: [eva("eva-1")],
    });
    // a to c by the lander: 300 m and 400 m.
    const stretch = check(round).outings[0]!.stretches.find((one) => one.task === "carry")!;
    expect(stretch).toMatchObject({ path: ["a", "lander", "c"], walkM: 700 });
    // 1400 s for the 700 s of the way: EV1 passes EV2 at the lander after 600 s, at 2600.
    const apart = check(round).separation[0]!.points;
    expect(apart).toContainEqual({ atS: 2600, value: 0 });
    expect(breachesOf(round)).toEqual([]);
    const shut = alone(task("carry", "lander", { endPlace: "a", duration: { likelyS: 1400 } }), {
      places: [place("lander", 0, 0), place("a", 150, 200)],
      site: { keepOuts: [wall] },
    });
    expect(new Set(breachesOf(shut))).toEqual(new Set(["no-way"]));
  });

  test("a walk that may lead anywhere counts with the farthest it can lead", () => {
    // At a, 300 s from home; 400 m walked lead 200 m off and back: 500 s home, not 300.
    const roam = (emergencyOxygenS: number, walkM = 400) =>
      alone(task("roam", "a", { walkM, duration: { likelyS: 900 } }), { suit: { emergencyOxygenS } });
    expect(check(roam(1000)).walkbackS).toEqual({ roam: 500 });
    expect(only(roam(499), "walk-back-emergency")).toMatchObject({ level: "breach", need: 500, have: 499 });
    expect(breachesOf(roam(500))).toEqual([]);
    expect(only(roam(499), "walk-back-emergency").sentence).toContain(
      "to walk back from the farthest point of roam at",
    );
    expect(breachesOf(roam(300, 0))).toEqual([]);
    // With an end place only what is walked beyond the way: 500 m for 300 m lead 100 m off, at worst beside b, 600 s out.
    const survey = alone(task("survey", "a", { endPlace: "b", walkM: 500, duration: { likelyS: 900 } }));
    expect(check(survey).walkbackS).toEqual({ survey: 700 });
  });

  test("what is left at the end of the task carries home from the farthest it can lead", () => {
    // 0.01 Wh/s: 300 s out, 900 s of work, 500 s home at the worst: 17 Wh, where home from a alone asks for 15.
    const charged = (batteryWh: number) =>
      alone(task("roam", "a", { walkM: 400, duration: { likelyS: 900 } }), {
        evas: [eva("eva-1", { crew: ["ev1"], egressWorkS: 0, ingressWorkS: 0 })],
        suit: { electricalW: 36, batteryWh: 2 * batteryWh, reserve: { battery: 0.5 } },
      });
    expect(breachesOf(charged(17))).toEqual([]);
    expect(only(charged(16.999), "walk-back-consumables")).toMatchObject({
      level: "breach",
      need: 500,
      have: 499,
    });
  });

  test("two who do different tasks may come as much farther apart, two on the same one do not", () => {
    // a and b are 300 m apart; 400 m and 100 m walked lead 200 m and 50 m off.
    const both = (greatestM: number, crew = 1) =>
      tinyPlan({
        tasks: [task("one", "a", { walkM: 400, crew: { count: crew } }), task("two", "b", { walkM: 100 })],
        placements:
          crew === 2 ? [at("one", 2000, ["ev1", "ev2"])] : [at("one", 2000), at("two", 2000, ["ev2"])],
        rules: { separation: { greatestM } },
      });
    expect(breachesOf(both(550))).toEqual([]);
    expect(only(both(549), "crew-separation")).toMatchObject({ level: "breach", have: 550 });
    // Together they are never apart but for what the distance to the lander may be: nothing, as they go together.
    expect(breachesOf(both(0, 2))).toEqual([]);
  });

  test("slopes inside a task are climbed by body, suit and load", () => {
    // 1000 m east and 100 m up at 1 m/s, EV1 (80 kg) in a suit of 80 kg with 30 kg; the climb takes the way's own time.
    const climb = (massOutKg: number, likelyS: number): PlanInput["tasks"][number] =>
      task("carry", "lander", { endPlace: "top", massOutKg, duration: { likelyS } });
    const places = [place("lander", 0, 0), { ...place("top", 1000, 0), upM: 100 }];
    const rate = (massOutKg: number, likelyS = 3000) =>
      check(alone(climb(massOutKg, likelyS), { places })).outings[0]!.stretches.find(
        (one) => one.task === "carry",
      )!.metabolicW;
    const flat = check(
      alone(climb(0, 3000), { places: [place("lander", 0, 0), place("top", 1000, 0)] }),
    ).outings[0]!.stretches.find((one) => one.task === "carry")!.metabolicW;
    // hypot(1000, 100) m at exp(-3.5 / 10) m/s: 1426.1 s, up to 1427, of the 3000 s.
    const upW = (massKg: number) => (slopeW(massKg, 1.62, 1, Math.atan(0.1)) * 1427) / 3000;
    expect(rate(0) - flat).toBeCloseTo(upW(160), 9);
    expect(rate(30) - flat).toBeCloseTo(upW(190), 9);
    // The same work in half the time is twice the power.
    expect(rate(30, 1500) - flat).toBeCloseTo(2 * upW(190), 9);
  });
});
