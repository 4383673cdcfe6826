import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { plan } from "./cases/walking-physics.ts";
import { only } from "./pair.ts";

describe("walking as people can", () => {
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
