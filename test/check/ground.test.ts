import { describe, expect, test } from "vitest";
import { check } from "../../src/check/index.ts";
import { gaitsOf, homeOf, waysOf } from "../../src/terrain/index.ts";
import { breachesOf, only } from "./pair.ts";
import { at, place, task, tinyPlan } from "./tinyPlan.ts";

/** 1400 m square of level ground, points 25 m apart; heights by `heightM`. */
const groundBy = (heightM: (eastM: number, northM: number) => number | null) => ({
  type: "grid" as const,
  westM: -700,
  southM: -700,
  cellM: 25,
  columns: 57,
  rows: 57,
  detour: 1,
  heights: Array.from({ length: 57 }, (_, row) =>
    Array.from({ length: 57 }, (_, column) => {
      const height = heightM(-700 + 25 * column, 700 - 25 * row);
      return height === null ? "x" : String(Math.round(height * 100));
    }).join(" "),
  ),
});
const level = groundBy(() => 0);
/** A wall 40 m high north of the lander, 600 m long: the middle of its far side is far from home. */
const walled = groundBy((e, n) => (n >= 100 && n <= 150 && Math.abs(e) <= 300 ? 40 : 0));
/** Unknown ground all along 450 m east. */
const split = groundBy((e) => (e === 450 ? null : 0));

const west = place("west", -275, 200);
const east = place("east", 275, 200);
const places = [place("lander", 0, 0), place("a", 300, 0), place("b", 600, 0), west, east];

describe("ways over a height grid", () => {
  test("walk-back-emergency: on level ground a grid changes nothing but the detour", () => {
    const plan = (ground?: typeof level) =>
      tinyPlan({
        tasks: [task("one", "a"), task("two", "c")],
        placements: [at("one", 2000), at("two", 4000)],
        ...(ground ? { more: { ground } } : {}),
      });
    expect(check(plan(level)).outings).toEqual(check(plan()).outings);
    expect(check(plan(level)).findings).toEqual([]);
  });

  test("walk-back-emergency: the middle of a way behind a wall is farther than its ends", () => {
    const plan = (emergencyOxygenS: number) =>
      tinyPlan({
        places,
        tasks: [task("one", "west"), task("two", "east")],
        placements: [at("one", 4000), at("two", 8000)],
        suit: { emergencyOxygenS },
        more: { ground: walled },
      });
    const gaits = gaitsOf(plan(9000));
    const ways = waysOf(plan(9000).site, gaits.planned);
    const home = homeOf(plan(9000).site, ways, gaits.back);
    const peakS = home.peakS[3 * 5 + 4]!;
    expect(peakS).toBeGreaterThan(Math.max(home.placeS[3]!, home.placeS[4]!) + 100);
    expect(breachesOf(plan(peakS))).toEqual([]);
    expect(only(plan(peakS - 1), "walk-back-emergency")).toMatchObject({
      level: "breach",
      need: peakS,
      have: peakS - 1,
    });
  });

  test("walk-back-emergency: so is the middle of a carry, which is walked inside a task", () => {
    const plan = (emergencyOxygenS: number, ground?: typeof level) =>
      tinyPlan({
        places,
        tasks: [task("carry", "west", { endPlace: "east" })],
        placements: [at("carry", 4000)],
        suit: { emergencyOxygenS },
        ...(ground ? { more: { ground } } : {}),
      });
    const gaits = gaitsOf(plan(9000, walled));
    const ways = waysOf(plan(9000).site, gaits.planned);
    const peakS = homeOf(plan(9000).site, ways, gaits.back).peakS[3 * 5 + 4]!;
    expect(breachesOf(plan(peakS, walled))).toEqual([]);
    expect(breachesOf(plan(peakS - 1, walled))).toEqual(["walk-back-emergency"]);
  });

  test("crew-separation: along the way that is walked, not the straight line through the wall", () => {
    // One goes from the lander to a place right behind the wall, round its end; the other stays at the lander.
    const behind = place("behind", 0, 200);
    const plan = (greatestM: number, ground: typeof level) =>
      tinyPlan({
        places: [place("lander", 0, 0), behind],
        tasks: [task("one", "behind")],
        placements: [at("one", 4000)],
        rules: { separation: { greatestM } },
        more: { ground },
      });
    // Straight on it is 200 m at the most; round the wall's end it is 300 m and more.
    expect(breachesOf(plan(200, level))).toEqual([]);
    const breach = only(plan(200, walled), "crew-separation");
    expect(breach.level).toBe("breach");
    expect(breach.have).toBeGreaterThan(310);
    expect(breach.have).toBeLessThan(400);
    expect(breachesOf(plan(400, walled))).toEqual([]);
  });

  test("no-way: unknown ground between, on a way and inside a task", () => {
    const way = tinyPlan({
      tasks: [task("one", "b")],
      placements: [at("one", 4000)],
      more: { ground: split },
    });
    expect(breachesOf(way)).toContain("no-way");
    const carry = tinyPlan({
      tasks: [task("one", "a", { endPlace: "b" })],
      placements: [at("one", 4000)],
      more: { ground: split },
    });
    expect(breachesOf(carry).filter((rule) => rule === "no-way").length).toBeGreaterThan(0);
    expect(
      breachesOf(
        tinyPlan({
          tasks: [task("one", "a", { endPlace: "c" })],
          placements: [at("one", 4000)],
          more: { ground: split },
        }),
      ),
    ).toEqual([]);
  });
});
