import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  farthestM,
  levelW,
  metabolicW,
  slopeW,
  walkbackW,
  walkingMs,
  walkingW,
} from "../../src/physics/index.ts";
import { speedGrowthW } from "../../src/physics/walk.ts";
import { toblerKmH } from "../../src/physics/gait.ts";
import { lightWalkW } from "../published/models/lightwalk.ts";
import { evenly } from "./evenly.ts";

const slopes = evenly(-0.5, 0.5);
const angles = evenly(-0.35, 0.35);
const speeds = evenly(0.05, 2);
/** 300 W at 0.9 m/s; 157 kg of body and suit. */
const RATE = { metabolicW: 300, rateAtMs: 0.9 };
const who = { factor: 1, massKg: 157 };

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
        expect(walkingW(RATE, who, 1.62, 0.9, angle)).toBeGreaterThanOrEqual(300);
      }),
    );
    expect(walkingW(RATE, { ...who, factor: 1.1 }, 1.62, 0.9, 0)).toBeCloseTo(330, 9);
  });

  it("costs no less the faster it is, and as much as the plan says up to the speed that it is said for", () => {
    fc.assert(
      fc.property(speeds, speeds, evenly(0.3, 3), (a, b, factor) => {
        const at = (speedMs: number): number => levelW(RATE, { ...who, factor }, 1.62, speedMs);
        if (b > a) expect(at(b)).toBeGreaterThanOrEqual(at(a));
        expect(at(a)).toBeGreaterThanOrEqual(300 * factor);
      }),
    );
    expect(levelW(RATE, who, 1.62, 0.3)).toBe(300);
    // 2.7 sqrt(1.62 / 9.80665) 157 (1.5^2 - 0.9^2) = 1.09740 * 157 * 1.44 = 248.10 W more; by metres only 2 * 157 * 1.5 = 471 W.
    expect(levelW(RATE, who, 1.62, 1.5)).toBeCloseTo(548.1, 1);
  });

  it("grows with speed as the scaled Earth formula does in loose sand", () => {
    fc.assert(
      fc.property(speeds, evenly(0.9, 10), (speedMs, gravityMs2) => {
        const walk = { bodyKg: 75, loadKg: 82, gradePercent: 0, terrain: 1.8 };
        const more =
          lightWalkW({ ...walk, speedMs: speedMs + 0.5 }, gravityMs2) -
          lightWalkW({ ...walk, speedMs }, gravityMs2);
        expect(speedGrowthW(157, gravityMs2, speedMs, speedMs + 0.5)).toBeCloseTo(more, 9);
      }),
    );
  });

  it("never costs less than 2 J for each kg and metre, whatever rate is said at whatever speed by whomever", () => {
    fc.assert(
      fc.property(
        evenly(50, 1500),
        speeds,
        evenly(0.3, 3),
        evenly(0.05, 5),
        (metabolicW, rateAtMs, factor, speedMs) => {
          const watts = levelW({ metabolicW, rateAtMs }, { factor, massKg: 157 }, 1.62, speedMs);
          expect(watts / (157 * speedMs)).toBeGreaterThanOrEqual(2 - 1e-12);
        },
      ),
    );
  });

  it("never walks back for less than the same model asks at that speed", () => {
    // At 0.9 m/s 300 W, at 1.5 m/s 548.1 W; a climb adds its work to what is given too.
    expect(walkbackW(100, RATE, who, 1.62, 0.9, 0)).toBe(300);
    expect(walkbackW(400, RATE, who, 1.62, 0.9, 0)).toBe(400);
    expect(walkbackW(400, RATE, { ...who, factor: 1.2 }, 1.62, 0.9, 0)).toBeCloseTo(480, 9);
    expect(walkbackW(400, RATE, who, 1.62, 1.5, 0)).toBe(levelW(RATE, who, 1.62, 1.5));
    expect(walkbackW(400, RATE, who, 1.62, 0.9, 0.1)).toBe(400 + slopeW(157, 1.62, 0.9, 0.1));
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
});
