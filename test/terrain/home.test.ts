import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { walkingMs } from "../../src/physics/index.ts";
import { homeOf, waysOf } from "../../src/terrain/index.ts";
import { clearTriangle } from "../../src/terrain/shapes.ts";
import { disc, discs, flatSpots, gait, groundOf, hillySpots, legs, nearDiscs } from "./ground.ts";
import { evenly } from "../physics/evenly.ts";

const back = { ...gait, speedMs: 1, legsAtMs: gait.speedMs };
const STEEPEST = Math.tan((gait.greatestSlopeDeg * Math.PI) / 180);

describe("the way home", () => {
  it("is nothing at the lander and the walk-back way elsewhere", () => {
    fc.assert(
      fc.property(hillySpots, discs, (spots, keepOuts) => {
        const ground = groundOf(spots, keepOuts);
        const home = homeOf(ground, waysOf(ground, gait), back);
        const direct = waysOf(ground, back);
        expect(home.placeS[0]).toBe(0);
        ground.places.forEach((_, i) => {
          expect(home.placeS[i]).toBe(direct.durationS[i * direct.size]);
          expect(home.placeM[i]).toBe(direct.distanceM[i * direct.size]);
        });
      }),
    );
  });

  it("is worst on the way at least as at both of its ends, and -1 only where an end or the way has none", () => {
    fc.assert(
      fc.property(hillySpots, discs, legs, (spots, keepOuts, given) => {
        const ground = groundOf(spots, keepOuts, given);
        const ways = waysOf(ground, gait);
        const home = homeOf(ground, ways, back);
        for (let i = 0; i < ways.size; i += 1) {
          for (let j = 0; j < ways.size; j += 1) {
            const at = i * ways.size + j;
            const peak = home.peakS[at]!;
            if (ways.durationS[at]! < 0 || home.placeS[i]! < 0 || home.placeS[j]! < 0) expect(peak).toBe(-1);
            if (peak < 0) continue;
            expect(peak).toBeGreaterThanOrEqual(home.placeS[i]!);
            expect(peak).toBeGreaterThanOrEqual(home.placeS[j]!);
          }
        }
      }),
    );
  });

  it("is enough for somebody anywhere on a way: straight home where that is open, else by an end", () => {
    fc.assert(
      fc.property(
        fc.oneof(flatSpots, hillySpots),
        fc.oneof(nearDiscs, fc.constant([])),
        evenly(0, 1),
        (spots, keepOuts, share) => {
          const ground = groundOf(spots, keepOuts);
          const ways = waysOf(ground, gait);
          const home = homeOf(ground, ways, back);
          for (let i = 0; i < ways.size; i += 1) {
            for (let j = 0; j < ways.size; j += 1) {
              const at = i * ways.size + j;
              if (home.peakS[at]! < 0 || ways.via[at]! >= 0 || i === j) continue;
              const a = ground.places[i]!;
              const b = ground.places[j]!;
              const mid = {
                id: "mid",
                kind: "station",
                eastM: a.eastM + share * (b.eastM - a.eastM),
                northM: a.northM + share * (b.northM - a.northM),
                upM: a.upM + share * (b.upM - a.upM),
              };
              // The point becomes a place of its own: the quickest way home from there, over all places.
              const wider = { ...ground, places: [...ground.places, mid] };
              const there = homeOf(wider, waysOf(wider, gait), back).placeS[ways.size]!;
              expect(there).toBeGreaterThanOrEqual(0);
              // Above or below the lander's footing close by, nobody climbs straight: the line is then as long as lets it rise at the
              // greatest slope.
              const levelM = Math.hypot(mid.eastM, mid.northM);
              const runM = Math.abs(mid.upM) / STEEPEST;
              const clear = keepOuts.every(({ shape }) => clearTriangle(shape, a, b, ground.places[0]!));
              const steep = levelM < runM && clear;
              const slope = mid.upM > 0 ? -STEEPEST : STEEPEST;
              const gentleS = Math.hypot(runM * gait.detour, mid.upM) / walkingMs(1, slope);
              // One second a hop: each hop's time is rounded up by itself.
              expect(steep ? Math.min(there, gentleS) : there).toBeLessThanOrEqual(
                home.peakS[at]! + ways.size,
              );
            }
          }
        },
      ),
      { numRuns: 500 },
    );
  });

  it("is longer behind a keep-out than at both ends of the way", () => {
    // Both ends see the lander past the disc, the middle of the way does not.
    const ground = groundOf(
      [
        [-300, 300, 0],
        [300, 300, 0],
      ],
      [disc(0, 150, 60)],
    );
    const ways = waysOf(ground, gait);
    const home = homeOf(ground, ways, back);
    // Ends: hypot(300, 300) * 1.1 = 466.7 s, up to 467. Middle: half of 660 m more.
    expect(home.placeS[1]).toBe(467);
    expect(home.peakS[1 * 3 + 2]).toBe(467 + 330);
    const open = groundOf([
      [-300, 300, 0],
      [300, 300, 0],
    ]);
    expect(homeOf(open, waysOf(open, gait), back).peakS[1 * 3 + 2]).toBe(467);
  });

  it("takes a given leg home at the walk-back pace, and the worst inside one by the nearer end or as given", () => {
    // At 1 m/s both legs are quicker than the plan walks (0.9 m/s), so that their length at 1 m/s is the worse of the two.
    const leg = { from: "p1", to: "p2", distanceM: 1000, durationS: 1000, bothWays: true };
    const spots = [
      [100, 0, 0],
      [0, 200, 0],
    ] as const;
    const ground = groundOf(
      spots,
      [],
      [leg, { ...leg, from: "p2", to: "lander", distanceM: 400, durationS: 400 }],
    );
    const home = homeOf(ground, waysOf(ground, gait), back);
    // p1: 110 m direct. p2: 400 m given, at 1 m/s. Inside the 1000 m leg: (1000 + 110 + 400) / 2.
    expect(home.placeS[1]).toBeGreaterThanOrEqual(110);
    expect(home.placeS[1]).toBeLessThanOrEqual(111);
    expect(home.placeS[2]).toBe(400);
    expect(Math.abs(home.peakS[1 * 3 + 2]! - 755)).toBeLessThanOrEqual(1);
    const told = groundOf(spots, [], [{ ...leg, walkbackPeakM: 612.5 }]);
    expect(homeOf(told, waysOf(told, gait), back).peakS[1 * 3 + 2]).toBe(613);
  });

  it("does not take the way home from an end for open ground where the planner gave it", () => {
    // Two places 600 m apart, 300 m north of the lander: direct, 467 s home from both and from the middle. When the
    // planner says 900 m home from p1, the ground there is not as computed: by an end, (660 + 900 + 467) / 2.
    const spots = [
      [-300, 300, 0],
      [300, 300, 0],
    ] as const;
    const leg = { from: "p1", to: "lander", distanceM: 900, durationS: 1000, bothWays: true };
    const ground = groundOf(spots, [], [leg]);
    const home = homeOf(ground, waysOf(ground, gait), back);
    expect(home.placeS[1]).toBe(900);
    expect(Math.abs(home.peakS[1 * 3 + 2]! - 1014)).toBeLessThanOrEqual(1);
    expect(home.peakS[2 * 3 + 1]).toBe(home.peakS[1 * 3 + 2]);
  });

  it("walks a given leg home no quicker than its own pace scaled, than its length, than its slope", () => {
    const pit = [[600, 0, -100]] as const;
    const homeBy = (distanceM: number, durationS: number) => {
      const ground = groundOf(pit, [], [{ from: "lander", to: "p1", distanceM, durationS, bothWays: true }]);
      return homeOf(ground, waysOf(ground, gait), back).placeS[1]!;
    };
    // Rough ground: 4500 s at 0.9 m/s are 4050 s at 1 m/s, more than 900 m take on the slope.
    expect(homeBy(900, 4500)).toBe(4050);
    // 100 m up over 600 m: Tobler's shape at 1/6 is exp(-3.5 / 6) = 0.55804; 900 m take 1612.8 s.
    expect(homeBy(900, 1200)).toBe(1613);
    // Without the leg: hypot(660, 100) = 667.53 m take 1196.2 s.
    const open = groundOf(pit);
    const computed = homeOf(open, waysOf(open, gait), back).placeS[1]!;
    expect(computed).toBe(1197);
    // A longer leg never shortens the walk-back, and one that beats the straight line (608.3 m) does not either.
    let before = 0;
    for (let distanceM = 0; distanceM <= 1400; distanceM += 50) {
      const now = homeBy(distanceM, 700);
      expect(now).toBeGreaterThanOrEqual(before);
      if (distanceM >= 667.53) expect(now).toBeGreaterThanOrEqual(computed);
      before = now;
    }
    expect(homeBy(0, 0)).toBe(homeBy(608, 0));
    expect(homeBy(0, 0)).toBe(Math.ceil(Math.hypot(600, 100) / Math.exp(-3.5 / 6)));
  });

  it("goes home along a leg with a longest way home at the leg's own pace", () => {
    // 300 m in 600 s, at 0.5 m/s where the plan walks at 0.9: the walk-back at 1 m/s makes 0.556 m/s of it. The 400 m home from its
    // worst point take 720 s.
    const ground = groundOf(
      [
        [200, 0, 0],
        [200, 200, 0],
      ],
      [],
      [{ from: "p1", to: "p2", distanceM: 300, durationS: 600, bothWays: true, walkbackPeakM: 400 }],
    );
    expect(homeOf(ground, waysOf(ground, gait), back).peakS[1 * 3 + 2]).toBe(720);
  });

  it("is no longer on a way past the lander than at its ends, where the ground is nearly level", () => {
    // 500 m east to 500 m west, 5 m up at its western end: 550 s and 550.1 s home from the ends, next to nothing between.
    const past = (upM: number) => {
      const ground = groundOf([
        [500, 0, 0],
        [-500, 0, upM],
      ]);
      const home = homeOf(ground, waysOf(ground, gait), back);
      return { peak: home.peakS[1 * 3 + 2]!, ends: Math.max(home.placeS[1]!, home.placeS[2]!) };
    };
    for (const upM of [-40, -1, 0, 1, 5, 40]) {
      const { peak, ends } = past(upM);
      expect({ upM, peak }).toEqual({ upM, peak: ends });
    }
  });

  it("counts the slope of the way home: up from a pit, gently from a hill, the mean over hops", () => {
    const ground = groundOf(
      [
        [500, 0, -50],
        [600, 0, -50],
      ],
      [disc(300, 60, 55)],
      [{ from: "p2", to: "p1", distanceM: 110, durationS: 120, bothWays: true }],
    );
    const home = homeOf(ground, waysOf(ground, gait), back);
    expect(Math.tan(home.placeSlopeRad[1]!)).toBeCloseTo(0.1, 12);
    expect(home.placeSlopeRad[0]).toBe(0);
    const hill = groundOf([[500, 0, 50]]);
    expect(Math.tan(homeOf(hill, waysOf(hill, gait), back).placeSlopeRad[1]!)).toBeCloseTo(-0.1, 12);
  });
});
