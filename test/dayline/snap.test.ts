import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { roundGridS, snapped, snapPoints } from "../../src/dayline/index.ts";
import { fixturePlan, fixtureSchedule } from "./fixture.ts";

const HOUR = 3600;

describe("snapping", () => {
  it("offers bands that fit, neighbours of the lane, windows and relay passes", () => {
    const plan = fixturePlan();
    const bands = [{ crew: ["ev1", "ev2"], fixed: [{ startS: 11_000, endS: 12_001 }] }];
    const forStation = snapPoints(plan, fixtureSchedule(), "station", "ev1", bands);
    expect(forStation).toEqual([
      { startS: 11_000, why: "earliest that fits here" },
      { startS: 12_000, why: "latest that fits here" },
      { startS: 3 * HOUR + 900, why: "after Sample" },
      { startS: 3 * HOUR - 3600, why: "before Sample" },
      { startS: 3 * HOUR, why: "window opens" },
      { startS: 5 * HOUR, why: "window closes" },
    ]);
    const forPanorama = snapPoints(plan, { placements: [] }, "panorama", "ev2", []);
    expect(forPanorama.map((point) => point.startS)).toEqual([3 * HOUR, 4 * HOUR - 600]);
    expect(snapPoints(plan, fixtureSchedule(), "no-such", "ev1", [])).toEqual([]);
  });

  it("a band of another crew member's lane does not draw", () => {
    const bands = [{ crew: ["ev2"], fixed: [{ startS: 1, endS: 2 }] }];
    expect(snapPoints(fixturePlan(), { placements: [] }, "sample", "ev1", bands)).toEqual([]);
  });

  const points = fc.array(
    fc.integer({ min: 0, max: 90_000 }).map((startS) => ({ startS, why: "x" })),
    { maxLength: 10 },
  );

  it("law: never draws farther than the radius or half a grid step, and twice is once", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 90_000, noNaN: true }),
        points,
        fc.integer({ min: 0, max: 2000 }),
        (startS, list, radiusS) => {
          const first = snapped(startS, list, radiusS, 60);
          const away = Math.abs(first.startS - startS);
          expect(away).toBeLessThanOrEqual(first.to ? radiusS : 30);
          if (first.to) {
            for (const point of list) expect(Math.abs(point.startS - startS)).toBeGreaterThanOrEqual(away);
            expect(snapped(first.startS, list, radiusS, 60).startS).toBe(first.startS);
          } else {
            expect(first.startS % 60 === 0).toBe(true);
          }
        },
      ),
    );
  });

  it("prefers what comes first in the list at the same distance", () => {
    const list = [
      { startS: 100, why: "first" },
      { startS: 140, why: "second" },
    ];
    expect(snapped(120, list, 20, 60).to?.why).toBe("first");
  });

  it("rounds to what can be seen", () => {
    expect(roundGridS(0.1)).toBe(60);
    expect(roundGridS(1300 / 81_000)).toBe(300);
    expect(roundGridS(0.001)).toBe(900);
  });
});
