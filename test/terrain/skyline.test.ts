import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { random } from "../../src/kernel/index.ts";
import { dipDeg, sightDeg } from "../../src/physics/index.ts";
import { heightAt } from "../../src/terrain/index.ts";
import type { HeightGrid } from "../../src/terrain/grid.ts";
import { isSeenOver, skylineAt, type Skyline } from "../../src/terrain/skyline.ts";
import { hill } from "./hill.ts";
import { horizonAt } from "./horizon.ts";

const MOON_M = 1_737_400;
const size = { columns: 101, rows: 101, cellM: 10, westM: -500, southM: -500 };
const deg = (radians: number): number => (radians * 180) / Math.PI;
const origin = { eastM: 0, northM: 0 };

const mostDeg = (line: Skyline, azimuthDeg: number): number => horizonAt(line, azimuthDeg).mostDeg;
const allRound = Array.from({ length: 144 }, (_, k) => 2.5 * k);

/**
 * The horizon by looking at the bilinear surface every hundredth of a cell, and closer wherever it stood higher than on
 * both sides: never too high, and hardly too low.
 */
function sampledDeg(grid: HeightGrid, azimuthDeg: number, radiusM: number, eyeM: number): number {
  const angle = (azimuthDeg * Math.PI) / 180;
  const footM = heightAt(grid, 0, 0);
  const stepM = grid.cellM / 100;
  const elevationDeg = (awayM: number): number => {
    const height = heightAt(grid, awayM * Math.sin(angle), awayM * Math.cos(angle));
    return sightDeg(awayM, height - footM, eyeM, radiusM);
  };
  let highest = -dipDeg(eyeM, radiusM);
  let [before, here] = [-Infinity, -Infinity];
  for (let awayM = stepM; awayM < (radiusM * Math.PI) / 2; awayM += stepM) {
    const next = elevationDeg(awayM);
    if (here >= before && !(next > here)) highest = Math.max(highest, crestDeg(awayM - 2 * stepM, awayM));
    if (Number.isNaN(next)) break;
    highest = Math.max(highest, next);
    [before, here] = [here, next];
  }
  return highest;

  /** The highest between two distances about one crest, by thirds; not so near that differences lose their digits. */
  function crestDeg(nearM: number, farM: number): number {
    let [near, far] = [Math.max(nearM, stepM), farM];
    let most = -Infinity;
    for (let n = 0; n < 40; n += 1) {
      const [low, high] = [near + (far - near) / 3, far - (far - near) / 3];
      const [lowDeg, highDeg] = [elevationDeg(low), elevationDeg(high)];
      // Past the edge of the grid nothing is known: the look stays before it.
      if (Number.isNaN(highDeg) || lowDeg > highDeg) far = high;
      else near = low;
      for (const at of [lowDeg, highDeg]) if (at > most) most = at;
    }
    return most;
  }
}

describe("the horizon", () => {
  it("dips a little under level on smooth ground, by the eye's height", () => {
    const line = skylineAt(
      hill(size, () => 7),
      { eastM: 3, northM: 4 },
      MOON_M,
    )!;
    for (const azimuth of allRound) {
      expect(mostDeg(line, azimuth)).toBeCloseTo(-dipDeg(1.5, MOON_M), 9);
      expect(horizonAt(line, azimuth).leastDeg).toBeCloseTo(-dipDeg(1.5, MOON_M), 9);
    }
    expect(dipDeg(1.5, MOON_M)).toBeCloseTo(0.0753, 4);
  });

  it("is as high as a wall is seen, by hand, and smooth elsewhere", () => {
    // A wall 101.5 m high along the east side at 300 m: 100 m above the eye, less half the turn of the ground.
    const wall = hill(size, (e) => (e >= 300 ? 101.5 : 0));
    const line = skylineAt(wall, origin, MOON_M)!;
    expect(mostDeg(line, 90)).toBeCloseTo(sightDeg(300, 101.5, 1.5, MOON_M), 3);
    // 45 degrees off, the wall is 424 m away.
    expect(mostDeg(line, 45)).toBeCloseTo(sightDeg(300 * Math.SQRT2, 101.5, 1.5, MOON_M), 3);
    expect(mostDeg(line, 270)).toBeCloseTo(-dipDeg(1.5, MOON_M), 9);
  });

  it("is the rim's all round in the middle of a round hollow", () => {
    const hollow = hill(size, (e, n) => (Math.hypot(e, n) >= 250 ? 40 : 0));
    const line = skylineAt(hollow, origin, MOON_M)!;
    const rim = deg(Math.atan2(38.5, 250));
    for (const azimuth of allRound) expect(Math.abs(mostDeg(line, azimuth) - rim)).toBeLessThan(0.5);
  });

  it("is steady through north", () => {
    const line = skylineAt(
      hill(size, (_, n) => (n > 200 ? 60 : 0)),
      origin,
      MOON_M,
    )!;
    expect(mostDeg(line, 359.9)).toBeCloseTo(mostDeg(line, 0.1), 2);
    expect(mostDeg(line, 360)).toBeCloseTo(mostDeg(line, 0), 9);
  });

  it("sees a crest between two points, by hand", () => {
    // Two points 30 m up side by side on a diagonal, level ground else: on the way between them, which passes no point,
    // the ridge is 15 m high halfway, 105 sqrt 2 m away: 13.5 m over the eye. The parabola's tangent is as high there.
    const ridge = hill(size, (e, n) => ((e === 100 && n === 110) || (e === 110 && n === 100) ? 30 : 0));
    const { leastDeg, mostDeg } = horizonAt(skylineAt(ridge, origin, MOON_M)!, 45);
    const at = sightDeg(105 * Math.SQRT2, 15, 1.5, MOON_M);
    expect(mostDeg).toBeGreaterThanOrEqual(at);
    // A little before the top the line of sight touches, less than a hundredth of a degree higher.
    expect(mostDeg).toBeLessThan(at + 0.01);
    expect(leastDeg).toBeGreaterThanOrEqual(at);
  });

  it("is what looks along the ground find, never under it, and its two sides lie together", () => {
    let worst = 0;
    let apart = 0;
    for (const radiusM of [MOON_M, 30_000, 1000]) {
      fc.assert(
        fc.property(
          fc.integer({ min: 0, max: 1e6 }),
          fc.double({ min: 0, max: 360, noNaN: true }),
          fc.constantFrom(0, 1.5, 40),
          fc.constantFrom(3, 30),
          (seed, azimuth, eyeM, swingM) => {
            const source = random(seed);
            // The lander not on a point of the grid.
            const net = { columns: 41, rows: 41, cellM: 10, westM: -203.7, southM: -198.2 };
            const grid = hill(net, () => source.between(0, swingM));
            const { leastDeg, mostDeg } = horizonAt(skylineAt(grid, origin, radiusM, eyeM)!, azimuth);
            const sampled = sampledDeg(grid, azimuth, radiusM, eyeM);
            expect(mostDeg).toBeGreaterThanOrEqual(sampled);
            expect(leastDeg).toBeLessThanOrEqual(mostDeg);
            const seen = (elevationDeg: number) =>
              isSeenOver(skylineAt(grid, origin, radiusM, eyeM)!, { azimuthDeg: azimuth, elevationDeg });
            expect(seen(mostDeg + 1e-6)).toBe("seen");
            expect(seen(leastDeg - 1e-6)).toBe("hidden");
            // From the ground itself the looks miss what is nearer than a hundredth of a cell.
            if (eyeM > 0) worst = Math.max(worst, mostDeg - sampled);
            apart = Math.max(apart, mostDeg - leastDeg);
          },
        ),
        { numRuns: 60 },
      );
    }
    // What may stand between two looks without being higher than both of them by itself.
    expect(worst).toBeLessThan(0.001);
    expect(apart).toBeLessThan(0.000001);
  });

  it("is not known where the ground is not", () => {
    expect(
      skylineAt(
        hill(size, () => 0),
        { eastM: 600, northM: 0 },
        MOON_M,
      ),
    ).toBeNull();
  });

  it("may be anywhere over unknown ground that lies before known ground, and is smooth beyond the last", () => {
    const holed = hill(size, (e, n) =>
      Math.abs(n) < 50 && Math.abs(e) > 200 && Math.abs(e) < 300 ? NaN : 0,
    );
    const line = skylineAt(holed, origin, MOON_M)!;
    expect(mostDeg(line, 90)).toBe(90);
    expect(isSeenOver(line, { azimuthDeg: 90, elevationDeg: 30 })).toBe("unsure");
    expect(isSeenOver(line, { azimuthDeg: 90, elevationDeg: -1 })).toBe("hidden");
    expect(isSeenOver(line, { azimuthDeg: 0, elevationDeg: 30 })).toBe("seen");
    expect(horizonAt(line, 90).leastDeg).toBeCloseTo(-dipDeg(1.5, MOON_M), 9);
    expect(mostDeg(line, 0)).toBeLessThan(0);
    const edge = hill(size, (e) => (e > 300 ? NaN : 0));
    expect(mostDeg(skylineAt(edge, origin, MOON_M)!, 90)).toBeCloseTo(-dipDeg(1.5, MOON_M), 9);
  });

  it("is lower from higher up, and never lower with more ground in the way", () => {
    const wall = hill(size, (e) => (e >= 300 ? 80 : 0));
    const more = hill(size, (e, n) => (e >= 300 ? 80 : 0) + (n > 250 ? 30 : 0));
    const low = skylineAt(wall, origin, MOON_M)!;
    const high = skylineAt(wall, origin, MOON_M, 20)!;
    const full = skylineAt(more, origin, MOON_M)!;
    for (const azimuth of allRound) {
      const one = mostDeg(low, azimuth);
      expect(mostDeg(high, azimuth)).toBeLessThanOrEqual(one + 1e-4);
      expect(mostDeg(full, azimuth)).toBeGreaterThanOrEqual(one - 1e-4);
    }
  });
});
