import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { homeOf, waysOf } from "../../src/terrain/index.ts";
import { disc, discs, flatSpots, gait, groundOf, hillySpots, legs, nearDiscs } from "./ground.ts";
import { evenly } from "../physics/evenly.ts";

const back = { ...gait, speedMs: 1 };

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
              // One second a hop: each hop's time is rounded up by itself.
              expect(there).toBeLessThanOrEqual(home.peakS[at]! + ways.size);
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
    const leg = { from: "p1", to: "p2", distanceM: 1000, durationS: 5000, bothWays: true };
    const spots = [
      [100, 0, 0],
      [0, 200, 0],
    ] as const;
    const ground = groundOf(spots, [], [leg, { ...leg, from: "p2", to: "lander", distanceM: 400 }]);
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
    const leg = { from: "p1", to: "lander", distanceM: 900, durationS: 1200, bothWays: true };
    const ground = groundOf(spots, [], [leg]);
    const home = homeOf(ground, waysOf(ground, gait), back);
    expect(home.placeS[1]).toBe(900);
    expect(Math.abs(home.peakS[1 * 3 + 2]! - 1014)).toBeLessThanOrEqual(1);
    expect(home.peakS[2 * 3 + 1]).toBe(home.peakS[1 * 3 + 2]);
  });
});
