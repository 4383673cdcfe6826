import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evaPoints, roundGridS, snapPoints, snapped } from "../../src/editor/snap.ts";
import { instant } from "../../src/kernel/index.ts";
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

  it("rounds to what can be seen, in steps of the plan's grid", () => {
    expect(roundGridS(0.1, 60)).toBe(60);
    expect(roundGridS(1300 / 81_000, 60)).toBe(300);
    expect(roundGridS(0.001, 60)).toBe(900);
    // 1.5 px for a step: 0.1 px/s shows 15 s, and 30 s where that is the grid; two minutes divide neither five nor fifteen.
    expect([0.1, 0.04, 0.001].map((pxPerS) => roundGridS(pxPerS, 30))).toEqual([30, 60, 900]);
    expect([1, 0.001].map((pxPerS) => roundGridS(pxPerS, 120))).toEqual([120, 120]);
  });

  it("points lie on the plan's grid, inside what they are the edges of", () => {
    const plan = fixturePlan({ rules: {} });
    const bands = [
      { crew: ["ev1"], fixed: [{ startS: 11_000, endS: 12_050 }] },
      // From 13,001 to 13,019 there is no whole minute: the edges themselves.
      { crew: ["ev1"], fixed: [{ startS: 13_001, endS: 13_020 }] },
    ];
    // Minutes 184 to 200; the task before Sample ends at 3:00:00, the one after it begins at 3:15:00.
    expect(snapPoints(plan, fixtureSchedule(), "station", "ev1", bands).map(({ startS }) => startS)).toEqual([
      11_040,
      12_000,
      13_001,
      13_019,
      3 * HOUR + 900,
      3 * HOUR - 3600,
      3 * HOUR,
      5 * HOUR,
    ]);
    const odd = {
      placements: fixtureSchedule().placements.map((one) => ({ ...one, startS: instant(one.startS + 7) })),
    };
    const points = snapPoints(plan, odd, "core", "ev1", []);
    // After Sample, 3:15:07, at 3:16:00; before it, 3:00:07 less 1800 s, at 2:30:00.
    expect(points).toContainEqual({ startS: 3 * HOUR + 960, why: "after Sample" });
    expect(points).toContainEqual({ startS: 3 * HOUR - 1800, why: "before Sample" });
  });

  it("a whole EVA stands at its bounds with its tasks on the grid", () => {
    // Egress at 7210 with the task at 8400: at the bound 7200 it would be at 8390, on the grid at 8400. Ingress complete at 20,000,
    // 1000 s before its bound: at 9400, on the grid at 9360.
    const eva = { earliestEgressS: 7200, latestIngressS: 21_000 };
    expect(evaPoints(eva, { startS: 7210, endS: 20_000 }, 8400, 60)).toEqual([
      { startS: 8400, why: "earliest egress" },
      { startS: 9360, why: "latest ingress" },
    ]);
  });
});
