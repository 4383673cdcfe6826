import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { only, pair } from "./pair.ts";
import { at, task, tinyPlan } from "./tinyPlan.ts";

/** EV1 works at `a`, walking there and back at these speeds, m/s. */
const plan = (plannedMs: number, backMs: number, place = "a") =>
  tinyPlan({
    tasks: [task("work", place)],
    placements: [at("work", 2000)],
    rules: { walking: { speedMs: plannedMs }, walkback: { speedMs: backMs } },
  });

describe("walking as people can", () => {
  // 7.0 km/h is 1.9444 m/s.
  pair("walking-physics", {
    breaks: ["the walk-back at 1.945 m/s", plan(1.9, 1.945)],
    says: { need: 7 / 3.6, have: 1.945 },
    holds: ["both at 1.944 m/s", plan(1.944, 1.944)],
  });
  pair("walking-physics", {
    breaks: ["planned at 3 m/s and back at 5 m/s", plan(3, 5)],
    says: { need: 7 / 3.6, have: 5 },
    holds: ["planned and back at 1 m/s", plan(1, 1)],
  });

  test("walking-physics is a breach also where every rule is a warning", () => {
    const all = plan(3, 5);
    const lax = Object.fromEntries(
      Object.entries(all.rules).map(([key, rule]) => [
        key,
        typeof rule === "object" ? { ...rule, level: "warning" } : rule,
      ]),
    ) as typeof all.rules;
    expect(check({ ...all, rules: lax }).score.breaches).toBe(1);
  });

  test("walking-physics is tight over 5.5 km/h (1.5278 m/s), and where the walk-back is faster than planned", () => {
    expect(only(plan(1.53, 1), "walking-physics")).toMatchObject({
      level: "tight",
      sentence:
        "Planned walking at 1.53 m/s is faster than suited walks usually were, 5.5 km/h (1.527 m/s) at most.",
    });
    expect(check(plan(1.527, 1.527)).findings).toEqual([]);
    expect(only(plan(0.9, 1), "walking-physics")).toMatchObject({
      level: "tight",
      sentence: "The walk-back at 1 m/s is faster than the plan walks, 0.9 m/s.",
    });
  });

  test("walking-physics says nothing while nobody goes out", () => {
    expect(check({ ...plan(3, 5), schedule: { placements: [] } }).findings).toEqual([]);
  });

  test("the faster the plan walks, the more oxygen and water for each metre of way", () => {
    const drawn = (speedMs: number, consumable: string): number => {
      // 600 m at b and 600 m back; what is drawn beyond standing still for as long is the walk's.
      const { outings, margins } = check(plan(speedMs, 1, "b"));
      const track = margins.find((one) => one.crew === "ev1" && one.consumable === consumable)!;
      const [way] = outings
        .find((one) => one.crew === "ev1")!
        .stretches.filter((one) => one.kind === "traverse");
      const value = (atS: number): number => track.points.find((one) => one.atS === atS)!.value;
      return value(way!.span.startS) - value(way!.span.endS);
    };
    for (const consumable of ["oxygen", "water"]) {
      // Above 1.5 m/s the growth with the square of the speed is more than the time saved.
      expect(drawn(3, consumable)).toBeGreaterThan(drawn(1.5, consumable));
      expect(drawn(5, consumable)).toBeGreaterThan(drawn(3, consumable));
    }
  });
});
