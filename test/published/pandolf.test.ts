import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evenly } from "../physics/evenly.ts";
import { lightWalkW } from "./models/lightwalk.ts";
import { loadedWalkW, type LoadedWalk, pandolfW, santeeCorrectionW } from "./models/pandolf.ts";

const walks = fc.record<LoadedWalk>({
  bodyKg: evenly(50, 110),
  loadKg: evenly(0, 60),
  speedMs: evenly(0.2, 2.4),
  gradePercent: evenly(-40, 25),
  terrain: evenly(1, 2),
});

describe("walking with a load", () => {
  it("is the formula of 1977 on the level and uphill, where that is above rest", () => {
    fc.assert(
      fc.property(walks, (walk) => {
        const up = { ...walk, gradePercent: Math.abs(walk.gradePercent) };
        expect(loadedWalkW(up)).toBe(Math.max(1.2 * up.bodyKg, pandolfW(up)));
      }),
    );
  });

  it("takes away the correction of 2001 between -2 and -12 percent, down to rest", () => {
    fc.assert(
      fc.property(walks, evenly(-12, -2), (walk, gradePercent) => {
        const down = { ...walk, gradePercent };
        const corrected = pandolfW(down) - santeeCorrectionW(down);
        expect(loadedWalkW(down)).toBeCloseTo(Math.max(1.2 * down.bodyKg, corrected), 9);
      }),
    );
  });

  it("has no jump: a thousandth of a percent of grade changes it by less than a watt", () => {
    fc.assert(
      fc.property(walks, (walk) => {
        const next = { ...walk, gradePercent: walk.gradePercent + 0.001 };
        expect(Math.abs(loadedWalkW(next) - loadedWalkW(walk))).toBeLessThan(1);
      }),
    );
    // The formulas as they stand jump by 22.5 W at the level for this walker.
    const level = { bodyKg: 70, loadKg: 20, speedMs: 1.1, gradePercent: 0, terrain: 1 };
    const barely = { ...level, gradePercent: -1e-9 };
    expect(santeeCorrectionW(level) - santeeCorrectionW(barely)).toBeCloseTo((90 * 36) / 70 - 25 + 1.21, 6);
    expect(loadedWalkW(barely)).toBeCloseTo(loadedWalkW(level), 6);
  });

  it("holds steeper descents at -12 percent and never goes below 1.2 W/kg", () => {
    fc.assert(
      fc.property(walks, (walk) => {
        const steep = { ...walk, gradePercent: Math.min(-12, walk.gradePercent) };
        expect(loadedWalkW(steep)).toBe(loadedWalkW({ ...walk, gradePercent: -12 }));
        expect(loadedWalkW(walk)).toBeGreaterThanOrEqual(1.2 * walk.bodyKg);
      }),
    );
  });

  it("takes half of the downhill correction at one percent", () => {
    // 70 and 20 kg at 1.1 m/s, factor 1. Level terms: 1.5 * 70 + 2 * 90 * (2/7)^2 + 90 (1.5 * 1.21 - 0.35 * 1.1) = 248.394 W.
    // As it stands at -1 %: -90 * 1.1 / 3.5 - 90 * 25 / 70 + 25 - 1.21 = -36.639 W, of which half is taken off.
    const walk = { bodyKg: 70, loadKg: 20, speedMs: 1.1, gradePercent: -1, terrain: 1 };
    expect(loadedWalkW(walk)).toBeCloseTo(248.394 + 36.639 / 2, 2);
  });

  it("scaled to Earth's own gravity is the Earth formula", () => {
    fc.assert(
      fc.property(walks, (walk) => {
        expect(lightWalkW(walk, 9.80665)).toBeCloseTo(pandolfW(walk), 6);
      }),
    );
  });
});
