import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { slopeW, walkingW } from "../../src/physics/index.ts";
import { stops, type Ways, waysOf } from "../../src/terrain/index.ts";
import { disc, discs, flatSpots, gait, groundOf, hillySpots, legs } from "./ground.ts";

const cell = (ways: Ways, from: string, to: string): number =>
  ways.index.get(from)! * ways.size + ways.index.get(to)!;

function everyPair(ways: Ways, hold: (from: number, to: number, at: number) => void): void {
  for (let i = 0; i < ways.size; i += 1) for (let j = 0; j < ways.size; j += 1) hold(i, j, i * ways.size + j);
}

describe("ways", () => {
  it("walks 300 m at a detour of 1.1 and 0.9 m/s in 366.67 s, rounded up", () => {
    const ways = waysOf(groundOf([[180, 240, 0]]), gait);
    const at = cell(ways, "lander", "p1");
    // 300 * 1.1 = 330 m (330.0000000000001 in binary would round up to 331 only if it were longer than 330).
    expect(ways.distanceM[at]).toBeGreaterThanOrEqual(330);
    expect(ways.distanceM[at]).toBeLessThanOrEqual(331);
    expect(ways.durationS[at]).toBe(367);
  });

  it("is the same there and back on flat ground", () => {
    fc.assert(
      fc.property(flatSpots, discs, (spots, keepOuts) => {
        const ways = waysOf(groundOf(spots, keepOuts), gait);
        everyPair(ways, (i, j, at) => {
          expect(ways.durationS[j * ways.size + i]).toBe(ways.durationS[at]);
        });
      }),
    );
  });

  it("holds the triangle inequality on flat ground, keep-outs or not", () => {
    fc.assert(
      fc.property(flatSpots, discs, (spots, keepOuts) => {
        const ways = waysOf(groundOf(spots, keepOuts), gait);
        const seconds = ways.durationS;
        everyPair(ways, (i, j, at) => {
          for (let k = 0; k < ways.size; k += 1) {
            const first = seconds[i * ways.size + k]!;
            const second = seconds[k * ways.size + j]!;
            if (first < 0 || second < 0) continue;
            expect(seconds[at]).toBeGreaterThanOrEqual(0);
            expect(seconds[at]).toBeLessThanOrEqual(first + second);
          }
        });
      }),
    );
  });

  it("is never shorter than the straight line, nor faster than the level pace over it", () => {
    fc.assert(
      fc.property(hillySpots, discs, (spots, keepOuts) => {
        const ground = groundOf(spots, keepOuts);
        const ways = waysOf(ground, gait);
        everyPair(ways, (i, j, at) => {
          if (ways.durationS[at]! < 0) return;
          const a = ground.places[i]!;
          const b = ground.places[j]!;
          const lineM = Math.hypot(a.eastM - b.eastM, a.northM - b.northM, a.upM - b.upM);
          expect(ways.distanceM[at]).toBeGreaterThanOrEqual(lineM - 1e-9);
          expect(ways.durationS[at]).toBeGreaterThanOrEqual(lineM / gait.speedMs - 1e-9);
        });
      }),
    );
  });

  it("never shortens when a keep-out is closed on flat ground", () => {
    fc.assert(
      fc.property(flatSpots, discs, fc.integer({ min: -800, max: 800 }), (spots, keepOuts, eastM) => {
        const open = waysOf(groundOf(spots, keepOuts), gait);
        const shut = waysOf(groundOf(spots, [...keepOuts, disc(eastM, 200, 150)]), gait);
        everyPair(open, (_i, _j, at) => {
          if (open.durationS[at]! < 0) expect(shut.durationS[at]).toBe(-1);
          else if (shut.durationS[at]! >= 0) {
            expect(shut.durationS[at]).toBeGreaterThanOrEqual(open.durationS[at]!);
          }
        });
      }),
    );
  });

  it("takes a given leg as it is, through keep-outs and slopes, one way where it says so", () => {
    const leg = { from: "p1", to: "p2", distanceM: 512.2, durationS: 999, bothWays: false };
    const ground = groundOf(
      [
        [-200, 0, 0],
        [200, 0, 300],
      ],
      [disc(0, 0.5, 60)],
      [leg],
    );
    const ways = waysOf(ground, gait);
    expect(ways.durationS[cell(ways, "p1", "p2")]).toBe(999);
    expect(ways.distanceM[cell(ways, "p1", "p2")]).toBe(513);
    expect(ways.legAt[cell(ways, "p1", "p2")]).toBe(0);
    expect(ways.durationS[cell(ways, "p2", "p1")]).toBe(-1);
    const both = waysOf({ ...ground, legs: [{ ...leg, bothWays: true }] }, gait);
    expect(both.durationS[cell(both, "p2", "p1")]).toBe(999);
  });

  it("keeps given legs against quicker ways round, whatever else is there", () => {
    fc.assert(
      fc.property(hillySpots, discs, legs, (spots, keepOuts, given) => {
        const ground = groundOf(spots, keepOuts, given);
        const ways = waysOf(ground, gait);
        const last = new Map<number, number>();
        for (const leg of given) {
          const from = ways.index.get(leg.from);
          const to = ways.index.get(leg.to);
          if (from === undefined || to === undefined || from === to) continue;
          last.set(from * ways.size + to, leg.durationS);
          if (leg.bothWays) last.set(to * ways.size + from, leg.durationS);
        }
        for (const [at, seconds] of last) expect(ways.durationS[at]).toBe(seconds);
      }),
    );
  });

  it("goes round by direct hops whose times and distances add up, and by the quickest of them", () => {
    fc.assert(
      fc.property(hillySpots, discs, legs, (spots, keepOuts, given) => {
        const ways = waysOf(groundOf(spots, keepOuts, given), gait);
        const seconds = ways.durationS;
        everyPair(ways, (i, j, at) => {
          if (seconds[at]! < 0) return;
          const path = stops(ways, i, j);
          expect(new Set(path).size).toBe(path.length);
          let totalS = 0;
          let totalM = 0;
          for (let k = 1; k < path.length; k += 1) {
            const hop = path[k - 1]! * ways.size + path[k]!;
            expect(ways.via[hop]).toBe(-1);
            totalS += seconds[hop]!;
            totalM += ways.distanceM[hop]!;
          }
          expect(totalS).toBe(seconds[at]);
          expect(totalM).toBe(ways.distanceM[at]);
        });
        everyPair(ways, (i, j, at) => {
          const isDirect = seconds[at]! >= 0 && ways.via[at]! < 0;
          if (isDirect) return;
          for (let k = 0; k < ways.size; k += 1) {
            const hop = i * ways.size + k;
            const rest = k * ways.size + j;
            if (k === i || seconds[hop]! < 0 || ways.via[hop]! >= 0 || seconds[rest]! < 0) continue;
            // No first hop gives a quicker way, and where one gives any way there is one.
            expect(seconds[at]).toBeGreaterThanOrEqual(0);
            expect(seconds[at]).toBeLessThanOrEqual(seconds[hop]! + seconds[rest]!);
          }
        });
      }),
      { numRuns: 300 },
    );
  });

  it("says -1 for a place inside a keep-out and for one too steep to reach, and goes round where it can", () => {
    // p1 inside the disc; p2 behind it, seen from p3 only; p4 on a 45 degree slope from everywhere.
    const ground = groundOf(
      [
        [300, 0, 0],
        [600, 0, 0],
        [300, 400, 0],
        [0, -50, 900],
      ],
      [disc(300, 0, 100)],
    );
    const ways = waysOf(ground, gait);
    expect(ways.durationS[cell(ways, "lander", "p1")]).toBe(-1);
    expect(ways.durationS[cell(ways, "p1", "lander")]).toBe(-1);
    expect(ways.durationS[cell(ways, "lander", "p4")]).toBe(-1);
    // Round by p3: 500 m and 500 m, each 550 m with the detour, 611.1 s rounded up.
    expect(ways.durationS[cell(ways, "lander", "p2")]).toBe(612 + 612);
    expect(stops(ways, 0, 2)).toEqual([0, 3, 2]);
  });

  it("takes the slope over the straight line, not over the way walked, and walks the detour at it", () => {
    // 100 m up over 600 m, 660 m walked: hypot(660, 100) = 667.53 m at 0.9 exp(-3.5 / 6) = 0.50224 m/s.
    const ways = waysOf(groundOf([[600, 0, 100]]), gait);
    expect(Math.tan(ways.slopeRad[cell(ways, "lander", "p1")]!)).toBeCloseTo(1 / 6, 12);
    expect(ways.distanceM[cell(ways, "lander", "p1")]).toBe(668);
    expect(ways.durationS[cell(ways, "lander", "p1")]).toBe(1330);
    // 19.8 and 20.3 degrees: tan 20 is 0.36397.
    const upTo = (upM: number) => waysOf(groundOf([[1000, 0, upM]]), gait).durationS[1]!;
    expect(upTo(363.9)).toBeGreaterThan(0);
    expect(upTo(364)).toBe(-1);
  });

  it("counts the slope of a given leg, and its pace where it is hurried", () => {
    const legOf = (durationS: number) =>
      waysOf(
        groundOf(
          [[600, 0, 100]],
          [],
          [{ from: "lander", to: "p1", distanceM: 720, durationS, bothWays: true }],
        ),
        gait,
      );
    // 720 m in 800 s is the level speed; in 400 s the work of the climb is done in half the time.
    const calm = legOf(800);
    expect(Math.tan(calm.slopeRad[cell(calm, "lander", "p1")]!)).toBeCloseTo(1 / 6, 12);
    const work = (ways: Ways): number => {
      const at = cell(ways, "lander", "p1");
      return ways.durationS[at]! * slopeW(157, 1.62, ways.paceMs[at]!, ways.slopeRad[at]!);
    };
    expect(calm.paceMs[cell(calm, "lander", "p1")]).toBe(0.9);
    expect(legOf(400).paceMs[cell(calm, "lander", "p1")]).toBe(1.8);
    expect(legOf(1600).paceMs[cell(calm, "lander", "p1")]).toBe(0.9);
    expect(work(legOf(400))).toBeCloseTo(work(calm), 9);
  });

  it("does not lose the way between two places on one spot", () => {
    const ways = waysOf(
      groundOf(
        [
          [0, 0, 0],
          [600, 0, 0],
          [600, 0, 0],
          [300, 400, 0],
        ],
        [disc(300, 0, 100)],
      ),
      gait,
    );
    expect(ways.durationS[cell(ways, "p2", "p3")]).toBe(0);
    everyPair(ways, (i, j) => expect(stops(ways, i, j).length).toBeLessThanOrEqual(ways.size));
    expect(ways.durationS[cell(ways, "p1", "p3")]).toBe(1224);
  });

  it("makes a way round as hard as its hops together", () => {
    fc.assert(
      fc.property(hillySpots, discs, (spots, keepOuts) => {
        const ways = waysOf(groundOf(spots, keepOuts), gait);
        const joules = (at: number): number =>
          ways.durationS[at]! *
          walkingW(
            { metabolicW: 300, rateAtMs: 0.9 },
            { factor: 1, massKg: 157 },
            1.62,
            0.9,
            ways.slopeRad[at]!,
          );
        everyPair(ways, (i, j, at) => {
          if (ways.via[at]! < 0) return;
          const path = stops(ways, i, j);
          let total = 0;
          for (let k = 1; k < path.length; k += 1) total += joules(path[k - 1]! * ways.size + path[k]!);
          expect(joules(at) / total).toBeCloseTo(1, 9);
        });
      }),
    );
    // Over a shoulder 60 m up behind a keep-out: neither end is higher, and still it is a climb.
    const shoulder = waysOf(
      groundOf(
        [
          [600, 0, 0],
          [300, 400, 60],
        ],
        [disc(300, 0, 100)],
      ),
      gait,
    );
    expect(shoulder.via[cell(shoulder, "lander", "p1")]).toBe(2);
    expect(shoulder.slopeRad[cell(shoulder, "lander", "p1")]).toBeGreaterThan(0.01);
  });
});
