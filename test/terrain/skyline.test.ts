import { describe, expect, it } from "vitest";
import { dipDeg } from "../../src/physics/index.ts";
import { horizonDeg, skylineAt } from "../../src/terrain/index.ts";
import { hill } from "./hill.ts";

const MOON_M = 1_737_400;
const size = { columns: 101, rows: 101, cellM: 10, westM: -500, southM: -500 };
const deg = (radians: number): number => (radians * 180) / Math.PI;

describe("the horizon", () => {
  it("dips a little under level on smooth ground, by the eye's height", () => {
    const line = skylineAt(
      hill(size, () => 7),
      { eastM: 3, northM: 4 },
      MOON_M,
    )!;
    for (const one of line.elevationDeg) expect(one).toBeCloseTo(-dipDeg(1.5, MOON_M), 9);
    expect(dipDeg(1.5, MOON_M)).toBeCloseTo(0.0753, 4);
  });

  it("is as high as a wall is seen, by hand, and smooth elsewhere", () => {
    // A wall 101.5 m high along the east side at 300 m: 100 m above the eye.
    const wall = hill(size, (e) => (e >= 300 ? 101.5 : 0));
    const line = skylineAt(wall, { eastM: 0, northM: 0 }, MOON_M)!;
    expect(horizonDeg(line, 90)).toBeCloseTo(deg(Math.atan2(100, 300)), 1);
    // 45 degrees off, the wall is 424 m away.
    expect(horizonDeg(line, 45)).toBeCloseTo(deg(Math.atan2(100, 300 * Math.SQRT2)), 0);
    expect(horizonDeg(line, 270)).toBeCloseTo(-dipDeg(1.5, MOON_M), 9);
  });

  it("is the rim's all round in the middle of a round hollow", () => {
    const hollow = hill(size, (e, n) => (Math.hypot(e, n) >= 250 ? 40 : 0));
    const line = skylineAt(hollow, { eastM: 0, northM: 0 }, MOON_M)!;
    const rim = deg(Math.atan2(38.5, 250));
    for (const one of line.elevationDeg) expect(Math.abs(one - rim)).toBeLessThan(0.5);
  });

  it("is steady through north and between rays", () => {
    const line = skylineAt(
      hill(size, (_, n) => (n > 200 ? 60 : 0)),
      { eastM: 0, northM: 0 },
      MOON_M,
    )!;
    expect(horizonDeg(line, 359.9)).toBeCloseTo(horizonDeg(line, 0.1), 2);
    expect(horizonDeg(line, 360)).toBeCloseTo(horizonDeg(line, 0), 9);
    const [a, b] = [horizonDeg(line, 40), horizonDeg(line, 40.5)];
    expect(horizonDeg(line, 40.25)).toBeCloseTo((a + b) / 2, 9);
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

  it("is lower from higher up, and never lower with more ground in the way", () => {
    const wall = hill(size, (e) => (e >= 300 ? 80 : 0));
    const more = hill(size, (e, n) => (e >= 300 ? 80 : 0) + (n > 250 ? 30 : 0));
    const low = skylineAt(wall, { eastM: 0, northM: 0 }, MOON_M)!;
    const high = skylineAt(wall, { eastM: 0, northM: 0 }, MOON_M, 20)!;
    const full = skylineAt(more, { eastM: 0, northM: 0 }, MOON_M)!;
    low.elevationDeg.forEach((one, k) => {
      expect(high.elevationDeg[k]).toBeLessThanOrEqual(one + 1e-9);
      expect(full.elevationDeg[k]).toBeGreaterThanOrEqual(one - 1e-9);
    });
  });
});
