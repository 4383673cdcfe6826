import { describe, expect, it } from "vitest";
import { bearingDeg } from "../../src/physics/bearing.ts";
import { craterHeightM } from "../../src/physics/crater.ts";
import { drinkingS } from "../../src/physics/drinking.ts";
import { ABSORPTANCE } from "../../src/physics/environment.ts";
import { storedAfterJ } from "../../src/physics/heatstore.ts";
import { incidence } from "../../src/physics/shading.ts";
import { sightDeg } from "../../src/physics/sight.ts";
import { purgeOf, stocks } from "../../src/physics/suit.ts";
import { metabolicW } from "../../src/physics/workrate.ts";
import { heatPerSecond } from "../../src/physics/worn.ts";

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

  it("has its floor as a bowl, a paraboloid between the middle and the rim", () => {
    // Half way out a quarter of the depth of 2 m is gone: 0.36 - 2 * 3/4.
    expect(craterHeightM(2.5, 10, 1)).toBeCloseTo(-1.14, 9);
  });

  it("keeps every milliwatt-second of a battery: 400 Wh are 400 * 3,600,000", () => {
    const suit = { oxygenKg: 0, co2Kg: 0, waterKg: 0, batteryWh: 400, leakKgH: 0, electricalW: 0 };
    const none = { environmentW: 0, respiratoryQuotient: 0.85, coolingKjKg: 2400, absorbentKjKg: 0 };
    expect(stocks({ ...suit, ...none }).battery).toBe(1_440_000_000);
  });

  it("is rid of the heat of body, pack, surroundings and absorbent, up to the next joule", () => {
    const suit = {
      ...{ oxygenKg: 1, co2Kg: 1, waterKg: 5, batteryWh: 400, leakKgH: 0 },
      ...{ electricalW: 50, environmentW: 28, respiratoryQuotient: 0.85, coolingKjKg: 2430 },
    };
    // 322 + 50 + 28 = 400 W, and of the absorbent 322 W * 0.0817214 kg/MJ * 2030 kJ/kg = 53.42 W.
    expect(heatPerSecond({ ...suit, absorbentKjKg: 0 }, 322)).toBe(400);
    expect(heatPerSecond({ ...suit, absorbentKjKg: 2030 }, 322)).toBe(454);
    expect(heatPerSecond({ ...suit, absorbentKjKg: 0 }, 322.1)).toBe(401);
  });

  it("takes stored heat out with all of the cooling while nothing is made", () => {
    // 60 kJ less 400 W for a minute.
    expect(storedAfterJ(60_000, 0, 400, 60)).toBe(36_000);
    // Without stored heat nothing is taken out; below nothing it is lost whatever the cooling.
    expect(storedAfterJ(0, 0, 400, 60)).toBe(0);
    expect(storedAfterJ(60_000, -100, 400, 60)).toBe(54_000);
  });

  it("drinks for whole seconds, and is not short of one by the noise of decimals", () => {
    // 0.3 kg at 0.1 kg an hour are 3 h, in binary 2.9999999999999996.
    expect(drinkingS(0.3, 0.1)).toBe(10_800);
    // 0.1 kg at 0.24 kg an hour are 1500 s; a milligram less is not.
    expect(drinkingS(0.1, 0.24)).toBe(1500);
    expect(drinkingS(0.099_999, 0.24)).toBe(1499);
    expect(drinkingS(1, 0)).toBe(Infinity);
  });

  it("sees a height far round a small body under the horizon", () => {
    // A sixth of the way round R = 1000 m, 100 m up: (1100 cos 60 - 1000, 1100 sin 60) = (-450, 952.628), atan -25.285 degrees.
    expect(sightDeg((1000 * Math.PI) / 3, 100, 0, 1000)).toBeCloseTo(-25.285, 3);
  });

  it("works at the rates that were measured, kcal/h of 4184 J in 3600 s, times the worker's factor", () => {
    expect(metabolicW("egress-ingress", 1)).toBeCloseTo(313.8, 9);
    expect(metabolicW("deployment", 1)).toBeCloseTo(283.582, 3);
    expect(metabolicW("geology", 1)).toBeCloseTo(283.582, 3);
    expect(metabolicW("riding", 1)).toBeCloseTo(142.953, 3);
    expect(metabolicW("overall", 1.1)).toBeCloseTo(299.156, 3);
    expect(metabolicW("rest", 1)).toBeCloseTo(116.222, 3);
    expect(metabolicW({ watts: 300 }, 0.9)).toBeCloseTo(270, 9);
  });

  it("takes up the light that clean cloth does, and on a tenth of it what the ground does", () => {
    // 0.18 + 0.1 * (1 - 0.12 - 0.18).
    expect(ABSORPTANCE).toBeCloseTo(0.25, 12);
  });
});
