import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { random } from "../../src/kernel/index.ts";
import { walkingMs } from "../../src/physics/index.ts";
import {
  contour,
  courseOf,
  type Gait,
  homeOf,
  isochrones,
  type Point,
  waysOf,
} from "../../src/terrain/index.ts";
import { networkOf, trailsBetween } from "../../src/terrain/network.ts";
import { disc, groundOf } from "./ground.ts";
import { farthestOn, levelHomeM, reachOf } from "../../src/terrain/reach.ts";
import { hill, terms } from "./hill.ts";

const size = { columns: 81, rows: 81, cellM: 10, westM: -400, southM: -400 };
const lander: Point = { eastM: 0, northM: 0 };
const at = (grid: { columns: number }, column: number, row: number): number => row * grid.columns + column;

describe("reach", () => {
  it("is the distance to the lander on level ground, at most 2.8 % too long and never too short", () => {
    const flat = hill(size, () => 0);
    const reach = reachOf(networkOf(flat, terms), [lander]);
    reach.levelM.forEach((metres, k) => {
      const exact = Math.hypot((k % 81) * 10 - 400, Math.floor(k / 81) * 10 - 400);
      expect(metres).toBeGreaterThanOrEqual(exact - 1e-6);
      expect(metres).toBeLessThanOrEqual(exact * 1.028 + 0.1);
    });
  });

  it("knows up from down: the lander on a hill is farther than the lander in a hollow", () => {
    const up = hill(size, (e, n) => -Math.hypot(e, n) / 5);
    const down = hill(size, (e, n) => Math.hypot(e, n) / 5);
    // 300 m east, walking up to the lander at a slope of 0.2, or down to it at -0.2.
    const flank = 300 * Math.sqrt(1.04);
    const uphill = reachOf(networkOf(up, terms), [lander]).levelM[at(up, 70, 40)]!;
    const downhill = reachOf(networkOf(down, terms), [lander]).levelM[at(down, 70, 40)]!;
    expect(uphill).toBeCloseTo(flank / walkingMs(1, 0.2), 0);
    expect(downhill).toBeCloseTo(flank / walkingMs(1, -0.2), 0);
    expect(uphill).toBeGreaterThan(downhill);
  });

  it("takes the nearest of several safe places", () => {
    const flat = hill(size, () => 0);
    const both = reachOf(networkOf(flat, terms), [lander, { eastM: 300, northM: 0 }]);
    expect(both.levelM[at(flat, 65, 40)]).toBeCloseTo(50, 6);
    expect(both.levelM[at(flat, 45, 40)]).toBeCloseTo(50, 6);
  });

  it("says where there is none", () => {
    const ring = hill(size, (e, n) => (Math.hypot(e, n) > 200 && Math.hypot(e, n) < 240 ? 300 : 0));
    const walk = { ...terms, upDeg: 20, downDeg: 20, acrossDeg: 20 };
    const reach = reachOf(networkOf(ring, walk), [lander]);
    expect(reach.levelM[at(ring, 75, 40)]).toBe(Infinity);
    expect(levelHomeM(reach, { eastM: 350, northM: 3 }, 0)).toBe(Infinity);
    expect(levelHomeM(reach, { eastM: 900, northM: 3 }, 0)).toBe(Infinity);
    expect(levelHomeM(reach, { eastM: 100, northM: 0 }, 0)).toBe(100);
  });
});

describe("lines of equal walk-back", () => {
  it("is the circle of that distance on level ground, closed, within 3 %", () => {
    const flat = hill(size, () => 0);
    const lines = isochrones(reachOf(networkOf(flat, terms), [lander]), 250, 1.2);
    expect(lines).toHaveLength(1);
    const [line] = lines;
    expect(line!.at(-1)).toEqual(line![0]);
    for (const { eastM, northM } of line!) {
      expect(Math.hypot(eastM, northM)).toBeGreaterThan(300 * 0.97);
      expect(Math.hypot(eastM, northM)).toBeLessThan(300 * 1.001);
    }
  });

  it("runs halfway to points without value, and to the edge", () => {
    const grid = hill({ columns: 3, rows: 2, cellM: 10 }, () => 0);
    expect(contour(grid, Float64Array.of(1, Infinity, Infinity, 1, Infinity, Infinity), 5)).toEqual([
      [
        { eastM: 5, northM: 0 },
        { eastM: 5, northM: 10 },
      ],
    ]);
    expect(contour(grid, Float64Array.of(0, 10, 10, 0, 10, 10), 2.5)).toEqual([
      [
        { eastM: 2.5, northM: 0 },
        { eastM: 2.5, northM: 10 },
      ],
    ]);
    expect(contour(grid, new Float64Array(6), 5)).toEqual([]);
  });

  it("parts points below from points above, saddles too: whoever crosses no line changes no side", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1e6 }), (seed) => {
        const source = random(seed);
        const grid = hill({ columns: 6, rows: 6, cellM: 1 }, () => source.next());
        const lines = contour(grid, grid.heightM, 0.5);
        // Along a row of points, sides change as often as lines cross the row.
        for (let row = 0; row < 6; row += 1) {
          let changes = 0;
          for (let c = 0; c < 5; c += 1)
            if (grid.heightM[row * 6 + c]! <= 0.5 !== grid.heightM[row * 6 + c + 1]! <= 0.5) changes += 1;
          const corners = lines.flatMap((line) => (isClosed(line) ? line.slice(1) : line));
          expect(corners.filter((one) => one.northM === row && one.eastM % 1 !== 0)).toHaveLength(changes);
        }
      }),
    );
  });
});

function isClosed(line: readonly Point[]): boolean {
  const [first, last] = [line[0]!, line.at(-1)!];
  return line.length > 2 && first.eastM === last.eastM && first.northM === last.northM;
}

describe("the farthest point of a way", () => {
  it("is in the middle of a way between two places that a hill parts from the lander", () => {
    // A wall round three sides of the lander's north: a way along its far side is farthest from home in its middle.
    const wall = hill(size, (e, n) => (n > 50 && n < 90 && Math.abs(e) < 250 ? 200 : 0));
    const walk = { ...terms, upDeg: 20, downDeg: 20, acrossDeg: 20 };
    const network = networkOf(wall, walk);
    const [a, b] = [
      { eastM: -200, northM: 120 },
      { eastM: 200, northM: 120 },
    ];
    const trails = trailsBetween(network, [lander, a, b]);
    const reach = reachOf(network, [lander]);
    const [homeA, homeB] = [trails[3]!.levelM, trails[6]!.levelM];
    const peak = farthestOn(reach, trails[5]!, homeA, homeB)!;
    expect(Math.abs(peak.at.eastM)).toBeLessThanOrEqual(10);
    // From the middle back to a place and home from there would be 200 m more; cutting the corner saves a little.
    expect(peak.levelM).toBeLessThan(homeA + 200);
    expect(peak.levelM).toBeGreaterThan(homeA + 190);
    expect(peak.levelM).toBeGreaterThan(Math.max(homeA, homeB) + 150);
  });

  it("is an end of the way where that is farther than all between", () => {
    const flat = hill(size, () => 0);
    const network = networkOf(flat, terms);
    const far = { eastM: 330, northM: 140 };
    const trails = trailsBetween(network, [lander, far]);
    const reach = reachOf(network, [lander]);
    const metres = Math.hypot(330, 140);
    expect(farthestOn(reach, trails[1]!, 0, metres)).toEqual({ levelM: metres, at: far, steepness: 0 });
    expect(farthestOn(reach, trails[2]!, metres, 0)).toEqual({ levelM: metres, at: far, steepness: 0 });
  });
});

describe("ways and home over a height grid", () => {
  const gaitOn = (grid: ReturnType<typeof hill>, more: Partial<NonNullable<Gait["relief"]>> = {}): Gait => ({
    speedMs: 0.9,
    detour: 1.5,
    greatestSlopeDeg: 20,
    relief: { grid, detour: 1, downDeg: 20, acrossDeg: 20, effort: null, ...more },
  });

  it("walks 300 m at 0.9 m/s in 333.33 s, rounded up, and 315 m at a detour of 1.05", () => {
    const flat = hill(size, () => 0);
    const ground = groundOf([[180, 240, 99]]);
    const ways = waysOf(ground, gaitOn(flat));
    // The height of a place is the grid's, not its own.
    expect([ways.distanceM[1], ways.durationS[1], ways.slopeRad[1]]).toEqual([300, 334, 0]);
    const longer = waysOf(ground, gaitOn(flat, { detour: 1.05 }));
    expect([longer.distanceM[1], longer.durationS[1]]).toEqual([315, 350]);
  });

  it("keeps a leg that the planner gave, and goes through it where there is no trail", () => {
    const split = hill(size, (e) => (e > 100 && e < 125 ? NaN : 0));
    const leg = { from: "lander", to: "p1", distanceM: 444, durationS: 555, bothWays: true };
    const spots = [
      [200, 0, 0],
      [200, 90, 0],
    ] as const;
    const ways = waysOf(groundOf(spots, [], [leg]), gaitOn(split));
    expect([ways.durationS[1], ways.distanceM[1], ways.legAt[1]]).toEqual([555, 444, 0]);
    // 90 m from p1 on to p2 at 0.9 m/s.
    expect([ways.durationS[2], ways.distanceM[2], ways.via[2]]).toEqual([655, 534, 1]);
    expect(ways.trails![1]).toBeNull();
    const none = waysOf(groundOf(spots), gaitOn(split));
    expect([none.durationS[1], none.durationS[5], none.distanceM[1]]).toEqual([-1, 100, -1]);
  });

  it("goes nowhere from a place off the grid, but stands there, and leaves by a leg that the planner gave", () => {
    const flat = hill(size, () => 0);
    const spots = [
      [900, 0, 0],
      [100, 0, 0],
    ] as const;
    const none = waysOf(groundOf(spots), gaitOn(flat));
    expect([none.durationS[1], none.durationS[4], none.durationS[5], none.durationS[2]]).toEqual([
      -1, 0, -1, 112,
    ]);
    const leg = { from: "p2", to: "p1", distanceM: 820, durationS: 900, bothWays: true };
    const led = waysOf(groundOf(spots, [], [leg]), gaitOn(flat));
    expect([led.durationS[1], led.via[1], led.durationS[3], led.durationS[4]]).toEqual([1012, 2, 1012, 0]);
    const home = homeOf(groundOf(spots, [], [leg]), led, gaitOn(flat));
    // 820 m at the walk-back speed of 0.9 m/s, rounded up, and 112 s from p2.
    expect(home.placeS[1]).toBe(912 + 112);
  });

  it("finds after a move, or another keep-out, what it would find afresh", () => {
    const height = (e: number, n: number): number => 9 * Math.sin(e / 60) * Math.cos(n / 50);
    const source = random(8);
    const spot = () => [source.between(-380, 380), source.between(-380, 380), 0] as const;
    const spots = Array.from({ length: 5 }, spot);
    const known = hill(size, height);
    waysOf(groundOf(spots), gaitOn(known));
    for (let round = 0; round < 6; round += 1) {
      spots[round % 5] = spot();
      const keepOuts = round % 2 === 0 ? [] : [disc(source.between(-200, 200), 50, 60)];
      const ground = groundOf(spots, keepOuts);
      const gait = gaitOn(known);
      const afresh = gaitOn(hill(size, height));
      const [ways, other] = [waysOf(ground, gait), waysOf(ground, afresh)];
      expect(ways).toEqual(other);
      expect(homeOf(ground, ways, gait)).toEqual(homeOf(ground, other, afresh));
    }
  });

  it("has the walk-back of every place and never a peak below an end's, whatever the ways spare", () => {
    const source = random(5);
    const rough = hill(size, (e, n) => 9 * Math.sin(e / 60) * Math.cos(n / 50));
    const spots = Array.from(
      { length: 6 },
      () => [source.between(-380, 380), source.between(-380, 380), 0] as const,
    );
    const ground = groundOf(spots);
    const effort = { levelW: 272, massKg: 170, gravityMs2: 1.62, speedMs: 0.9 };
    for (const more of [{}, { effort }]) {
      const gait = gaitOn(rough, more);
      const ways = waysOf(ground, gait);
      const home = homeOf(ground, ways, gait);
      const quick = waysOf(ground, gaitOn(rough));
      home.placeS.forEach((seconds, i) => expect(seconds).toBe(quick.durationS[i * ways.size]));
      for (let i = 0; i < ways.size; i += 1)
        for (let j = 0; j < ways.size; j += 1)
          expect(home.peakS[i * ways.size + j]).toBeGreaterThanOrEqual(
            Math.max(home.placeS[i]!, home.placeS[j]!),
          );
    }
  });

  it("gives a course of whole seconds that begins, bends and ends where the trail does", () => {
    const wall = hill(size, (e, n) => (n > 50 && n < 90 && Math.abs(e) < 250 ? 200 : 0));
    const ways = waysOf(groundOf([[0, 120, 0]]), gaitOn(wall));
    const seconds = ways.durationS[1]!;
    const course = courseOf(ways, [], 1, seconds)!;
    expect([course.atS[0], course.atS.at(-1)]).toEqual([0, seconds]);
    expect([course.points[0], course.points.at(-1)]).toEqual([
      expect.objectContaining({ eastM: 0, northM: 0 }),
      expect.objectContaining({ eastM: 0, northM: 120 }),
    ]);
    course.atS.slice(1).forEach((at, k) => expect(at).toBeGreaterThan(course.atS[k]!));
    // On level ground the pace is even: every corner at its share of the distance, to a second.
    let goneM = 0;
    course.points.slice(1).forEach((to, k) => {
      goneM += Math.hypot(to.eastM - course.points[k]!.eastM, to.northM - course.points[k]!.northM);
      expect(Math.abs(goneM / 0.9 - course.atS[k + 1]!)).toBeLessThanOrEqual(2);
    });
    expect(courseOf(waysOf(groundOf([[0, 120, 0]]), gaitOn(hill(size, () => 0))), [], 1, 100)).toBeNull();
  });

  it("is faster home for somebody faster", () => {
    const rough = hill(size, (e, n) => 9 * Math.sin(e / 60) * Math.cos(n / 50));
    const ground = groundOf([
      [300, 100, 0],
      [-200, 250, 0],
    ]);
    const ways = waysOf(ground, gaitOn(rough));
    let last = [Infinity, Infinity];
    for (const speedMs of [0.5, 0.8, 1, 1.3, 2]) {
      const home = homeOf(ground, ways, { ...gaitOn(rough), speedMs });
      const now = [home.placeS[1]!, home.peakS[5]!];
      now.forEach((seconds, k) => expect(seconds).toBeLessThanOrEqual(last[k]!));
      last = now;
    }
  });
});
