import { describe, expect, it } from "vitest";
import { bearingDeg } from "../../src/physics/bearing.ts";
import { carryTrips } from "../../src/physics/carry.ts";
import { craterHeightM } from "../../src/physics/crater.ts";
import { batteryS } from "../../src/physics/battery.ts";
import { heatLimitS, storedShare } from "../../src/physics/heatstore.ts";
import { purgeS } from "../../src/physics/purge.ts";
import { incidence } from "../../src/physics/shading.ts";
import { shadowPerHeight } from "../../src/physics/shadow.ts";
import { purgeOf, stocks } from "../../src/physics/suit.ts";

/** Where a formula changes its form, and on which side it is rounded. All by arithmetic from the formula at the model's head. */
describe("edges of the models", () => {
  it("heads along the axes, and nowhere from where it goes nowhere", () => {
    expect([bearingDeg(0, 1), bearingDeg(1, 0), bearingDeg(0, -1), bearingDeg(-1, 0)]).toEqual([
      0, 90, 180, 270,
    ]);
    expect(bearingDeg(-1, 1)).toBeCloseTo(315, 9);
    expect(bearingDeg(0, 0)).toBeNaN();
  });

  it("rounds every stock down and the purge up", () => {
    const suit = { oxygenKg: 1.5e-9, co2Kg: 2.5e-9, waterKg: 3.5e-9, batteryWh: 1.5 / 3_600_000 };
    const none = {
      leakKgH: 0,
      electricalW: 0,
      environmentW: 0,
      respiratoryQuotient: 0.85,
      coolingKjKg: 2400,
      absorbentKjKg: 0,
    };
    expect(stocks({ ...suit, ...none })).toEqual({ oxygen: 1, co2: 2, water: 3, battery: 1 });
    expect(purgeOf({ purgeKg: 1.5e-9 })).toBe(2);
  });

  it("has no time left beyond the limit of stored heat, and takes a share of the limit on its own side", () => {
    // 80 kg hold 240 kJ, or lose 152 kJ.
    expect(heatLimitS(80, 250_000, 100)).toBe(0);
    expect(heatLimitS(80, 239_900, 100)).toBe(1);
    expect(storedShare(80, 0.5)).toBeCloseTo(0.5 / 240_000, 15);
    expect(storedShare(80, -0.5)).toBeCloseTo(-0.5 / 152_000, 15);
  });

  it("lasts no time on an empty battery, and for ever at no power", () => {
    expect(batteryS(-1, 100)).toBe(0);
    expect(batteryS(1, 1)).toBe(3600);
    // 1 Wh at 7 W is 514.29 s.
    expect(batteryS(1, 7)).toBe(514);
    expect(batteryS(1, 0)).toBe(Infinity);
  });

  it("carries nothing in no trip, and something never where nobody is", () => {
    expect(carryTrips(0, 2, 1.62)).toBe(0);
    expect(carryTrips(0, 0, 1.62)).toBe(0);
    expect(carryTrips(1, 0, 1.62)).toBe(Infinity);
    expect(carryTrips(1, 1, 1.62)).toBe(1);
  });

  it("casts a shadow without end where the sun is not up", () => {
    expect(shadowPerHeight(-5)).toBe(Infinity);
    expect(shadowPerHeight(0)).toBe(Infinity);
    expect(shadowPerHeight(45)).toBeCloseTo(1, 12);
  });

  it("purges as long as the flow takes to bring what a well-mixed suit needs", () => {
    // Oxygen at 29.6 kPa and 293 K: 29600 * 0.031998 / (8.314462618 * 293) = 0.388786 kg/m3. Down to 5 % of 0.05 m3:
    // ln 20 * 0.05 * 0.388786 = 0.058235 kg, at 2 g/s 29.12 s.
    expect(purgeS(0.05, 0.05, 29_600, 293, 0.002)).toBeCloseTo(29.12, 2);
  });

  it("lights a slope by the angle between its normal and the sun", () => {
    // Sun 30 degrees up at azimuth 60: (0.75, 0.4330, 0.5). Ground falling 0.5 to the north: normal (0, 0.5, 1) / 1.1180.
    expect(incidence(0, -0.5, { azimuthDeg: 60, elevationDeg: 30 })).toBeCloseTo(0.64085, 4);
    // Rising 0.5 to the east: normal (-0.5, 0, 1) / 1.1180: (0.5 - 0.375) / 1.1180.
    expect(incidence(0.5, 0, { azimuthDeg: 60, elevationDeg: 30 })).toBeCloseTo(0.1118, 4);
  });

  it("has a crater's rim fall off to nothing at three radii", () => {
    // 10 m across: the rim stands 0.36 m high, at two radii (1/8 - 1/27) / (26/27) of that, the floor 2 m below the rim.
    expect(craterHeightM(0, 10, 1)).toBeCloseTo(-1.64, 9);
    expect(craterHeightM(5, 10, 1)).toBeCloseTo(0.36, 9);
    expect(craterHeightM(10, 10, 1)).toBeCloseTo(0.36 * ((27 / 8 - 1) / 26), 9);
    expect(craterHeightM(15, 10, 1)).toBe(0);
  });
});
