import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { parts } from "./cases/walk-back-emergency.ts";
import { breachesOf, only } from "./pair.ts";
import { at, place, task, tinyPlan } from "./tinyPlan.ts";

describe("walk-back on emergency oxygen", () => {
  test("walk-back-emergency as a warning: all of the emergency oxygen may be spent, but no second more", () => {
    const rules = { walkback: { emergencyReserveS: 180, level: "warning" as const } };
    expect(only(tinyPlan(parts(600, { rules })), "walk-back-emergency").level).toBe("tight");
    expect(breachesOf(tinyPlan(parts(600, { rules })))).toEqual([]);
    const out = only(tinyPlan(parts(599, { rules })), "walk-back-emergency");
    expect([out.level, out.sentence]).toEqual([
      "breach",
      "EV1 on eva-1 needs 10 min to walk back from b at 0:33:20 MET; emergency oxygen runs out after 9 min, its reserve counted in.",
    ]);
  });

  test("walk-back-emergency as a warning: without emergency oxygen nobody leaves the lander", () => {
    const rules = { walkback: { level: "warning" as const } };
    const none = only(tinyPlan(parts(0, { rules })), "walk-back-emergency");
    expect([none.level, none.sentence]).toEqual([
      "breach",
      "EV1 on eva-1 needs 10 min to walk back from b at 0:33:20 MET; there is no emergency oxygen at all.",
    ]);
    expect(breachesOf(tinyPlan(parts(0, { rules, tasks: [task("far", "lander")] })))).toEqual([]);
  });

  test("walk-back-emergency counts the worst point inside a leg the planner gave", () => {
    // a and c are 300 s and 400 s from home; the leg between them leads as far as 650 m out.
    const leg = (walkbackPeakM: number) =>
      tinyPlan({
        ...parts(600),
        tasks: [task("one", "a"), task("two", "c")],
        placements: [at("one", 2000), at("two", 4000)],
        site: { legs: [{ from: "a", to: "c", distanceM: 700, durationS: 700, walkbackPeakM }] },
      });
    expect(only(leg(650), "walk-back-emergency")).toMatchObject({ level: "breach", need: 650, have: 600 });
    expect(breachesOf(leg(600))).toEqual([]);
    // Drawn in the middle of the leg: it runs 2600 to 3300.
    const reach = check(leg(650)).reach[0]!;
    expect(reach.points).toContainEqual({ atS: 2950, value: 650 });
  });

  test("walk-back-emergency counts the places gone through on a way with several hops", () => {
    // No straight line from a to c: the walking keep-out between them is walked round through far, 900 m out.
    const round = (emergencyOxygenS: number) =>
      tinyPlan({
        ...parts(emergencyOxygenS),
        places: [place("lander", 0, 0), place("a", 300, 0), place("c", 0, 400), place("far", 900, 0)],
        tasks: [task("one", "a"), task("two", "c")],
        placements: [at("one", 2000), at("two", 9000)],
        site: {
          legs: [
            { from: "far", to: "c", distanceM: 10, durationS: 10 },
            { from: "lander", to: "c", distanceM: 5000, durationS: 5000 },
          ],
          keepOuts: [
            {
              id: "pit",
              name: "pit",
              kind: "walking",
              shape: { type: "disc", eastM: 150, northM: 200, radiusM: 10 },
            },
          ],
        },
      });
    // Home from far: 900 m; from c the walk-back takes the way back as given, 5000 m at 1 m/s.
    expect(only(round(4000), "walk-back-emergency")).toMatchObject({ need: 5000, have: 4000 });
    expect(check(round(5000)).outings[0]!.stretches.find(({ path }) => path.length === 3)?.path).toEqual([
      "a",
      "far",
      "c",
    ]);
    // one at a ends at 2600; 600 m on to far: there at 3200, 900 m from home; 10 m on to c: 3210.
    const points = check(round(5000)).reach[0]!.points;
    const atA = points.findIndex(({ atS }) => atS === 2600);
    expect(points.slice(atA, atA + 3)).toEqual([
      { atS: 2600, value: 300 },
      { atS: 3200, value: 900 },
      // The worst point of the given leg of 10 m: (10 + 900 + 5000) / 2 is less than its far end.
      { atS: 3210, value: 5000 },
    ]);
  });

  test("walk-back-emergency is tight when less than the plan's time is to spare", () => {
    const tight = { rules: { tightS: 120 } };
    // At b from 2000, 600 s from home, 719 s allowed.
    expect(only(tinyPlan(parts(719, tight)), "walk-back-emergency")).toMatchObject({
      level: "tight",
      span: { startS: 2000, endS: 2001 },
      sentence:
        "EV1 on eva-1 needs 10 min to walk back from b at 0:33:20 MET; emergency oxygen less its reserve gives 11 min, 1 min to spare.",
    });
    expect(check(tinyPlan(parts(720, tight))).findings).toEqual([]);
  });
});
