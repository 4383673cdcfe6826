import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  farthestM,
  heatStorageS,
  metabolicW,
  shadowPerHeight,
  slopeW,
  toblerKmH,
  walkingMs,
  walkingW,
} from "../../src/physics/index.ts";
import { evenly } from "./evenly.ts";

const slopes = evenly(-0.5, 0.5);
const angles = evenly(-0.35, 0.35);

describe("walking", () => {
  it("is never faster on a slope than on the level, and slower the steeper the climb", () => {
    fc.assert(
      fc.property(slopes, slopes, (a, b) => {
        expect(walkingMs(0.9, a)).toBeLessThanOrEqual(0.9);
        if (a >= 0 && b > a) expect(walkingMs(0.9, b)).toBeLessThanOrEqual(walkingMs(0.9, a));
      }),
    );
    expect(walkingMs(0.9, 0)).toBe(0.9);
  });

  it("keeps the Earth curve's shape uphill", () => {
    expect(walkingMs(2, 0.1) / walkingMs(2, 0.2)).toBeCloseTo(toblerKmH(0.1) / toblerKmH(0.2), 12);
  });

  it("costs at least the level rate on any slope, and just that on the level", () => {
    fc.assert(
      fc.property(angles, (angle) => {
        expect(walkingW(272, 1, 157, 1.62, 0.9, angle)).toBeGreaterThanOrEqual(272);
      }),
    );
    expect(walkingW(272, 1.1, 157, 1.62, 0.9, 0)).toBeCloseTo(299.2, 9);
  });

  it("costs more up than down the same slope", () => {
    fc.assert(
      fc.property(evenly(0.001, 0.35), (angle) => {
        expect(slopeW(157, 1.62, 0.9, angle)).toBeGreaterThan(slopeW(157, 1.62, 0.9, -angle));
      }),
    );
  });

  it("multiplies every rate by the walker's factor, categories and watts alike", () => {
    expect(metabolicW("geology", 1.2)).toBeCloseTo(1.2 * metabolicW("geology", 1), 9);
    expect(metabolicW({ watts: 300 }, 0.9)).toBeCloseTo(270, 9);
  });

  it("reaches less far round about, and not at all in no time", () => {
    // 1800 s at 1 m/s with ways a quarter longer than the line: 1440 m.
    expect(farthestM(1, 1800, 1.25)).toBeCloseTo(1440, 9);
    expect(farthestM(1, 0, 1.25)).toBe(0);
  });

  it("says unending where nothing is stored and where the sun is down", () => {
    expect(heatStorageS(80, 0)).toBe(Infinity);
    expect(shadowPerHeight(0)).toBe(Infinity);
    expect(shadowPerHeight(45)).toBeCloseTo(1, 12);
  });
});
