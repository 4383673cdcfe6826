import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gridFrom, gridTo } from "../../src/kernel/index.ts";

describe("whole multiples of a step", () => {
  it("are found on both sides, before zero too", () => {
    expect([61, 60, 59, 0, -1, -60, -61].map((atS) => gridFrom(atS, 60))).toEqual([
      120, 60, 60, 0, 0, -60, -60,
    ]);
    expect([61, 60, 59, 0, -1, -60, -61].map((atS) => gridTo(atS, 60))).toEqual([
      60, 60, 0, 0, -60, -60, -120,
    ]);
  });

  it("law: the nearest ones, and the same where a number is one", () => {
    const seconds = fc.integer({ min: -300_000_000, max: 300_000_000 });
    fc.assert(
      fc.property(seconds, fc.integer({ min: 1, max: 3600 }), (atS, gridS) => {
        const [upS, downS] = [gridFrom(atS, gridS), gridTo(atS, gridS)];
        expect([Math.abs(upS % gridS), Math.abs(downS % gridS)]).toEqual([0, 0]);
        expect(upS - downS).toBe(atS % gridS === 0 ? 0 : gridS);
        expect(downS <= atS && atS <= upS).toBe(true);
      }),
    );
  });
});
