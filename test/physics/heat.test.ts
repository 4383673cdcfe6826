import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  batteryS,
  batteryWh,
  carryLimitKg,
  carryTrips,
  environmentHeatW,
  heatBalance,
  heatLimitS,
  purgeKg,
  sharedEmergencyS,
  sharedWaterKgS,
  storedAfterJ,
  storedShare,
} from "../../src/physics/index.ts";
import { evenly } from "./evenly.ts";

describe("the heat of a suit", () => {
  it("goes somewhere: carried off and stored make the load", () => {
    fc.assert(
      fc.property(
        evenly(0, 800),
        evenly(-200, 200),
        evenly(0, 900),
        (metabolicW, environmentW, capacityW) => {
          const load = { metabolicW, electricalW: 50, absorbentW: 40, environmentW };
          const balance = heatBalance(load, capacityW, 2430);
          expect(balance.cooledW + balance.storedW).toBeCloseTo(balance.loadW, 9);
          expect(balance.cooledW).toBeGreaterThanOrEqual(0);
          expect(balance.cooledW).toBeLessThanOrEqual(capacityW);
          expect(balance.waterKgS * 2430 * 1000).toBeCloseTo(balance.cooledW, 6);
        },
      ),
    );
  });

  it("is stored while cooling is not enough, and taken out again by what is spare, never below nothing", () => {
    // 500 W against 400 W for 10 min: 60 kJ; then 200 W: 200 W spare takes it out in 5 min.
    const after = storedAfterJ(0, 500, 400, 600);
    expect(after).toBe(60_000);
    expect(storedAfterJ(after, 200, 400, 150)).toBe(30_000);
    expect(storedAfterJ(after, 200, 400, 3000)).toBe(0);
    expect(storedShare(80, after)).toBe(0.25);
    expect(storedAfterJ(0, -50, 400, 600)).toBe(-30_000);
    expect(storedAfterJ(-30_000, 50, 400, 300)).toBe(-15_000);
    expect(storedShare(80, -152_000)).toBe(-1);
  });

  it("reaches a limit in the time that is said, and less soon with less of it", () => {
    fc.assert(
      fc.property(evenly(40, 120), evenly(10, 800), evenly(0, 1), (bodyKg, netW, share) => {
        const seconds = heatLimitS(bodyKg, 0, netW);
        expect(storedShare(bodyKg, netW * seconds)).toBeCloseTo(1, 9);
        expect(heatLimitS(bodyKg, 0, netW * (1 - share / 2))).toBeGreaterThanOrEqual(seconds);
        expect(heatLimitS(bodyKg, netW * seconds * share, netW)).toBeLessThanOrEqual(seconds + 1e-9);
        expect(storedShare(bodyKg, -netW * heatLimitS(bodyKg, 0, -netW))).toBeCloseTo(-1, 9);
      }),
    );
    expect(heatLimitS(80, 0, 0)).toBe(Infinity);
    expect(heatLimitS(80, 300_000, 100)).toBe(0);
  });

  it("comes from the surroundings the more the higher the sun, and goes into the dark", () => {
    let last = environmentHeatW(null);
    expect(last).toBeLessThan(0);
    for (let deg = 1; deg <= 70; deg += 1) {
      const now = environmentHeatW(deg);
      expect(now).toBeGreaterThan(last);
      last = now;
    }
    expect(last).toBeGreaterThan(0);
    expect(environmentHeatW(30, 0.4)).toBeCloseTo(2 * environmentHeatW(30), 9);
  });
});

describe("purge, battery, emergency and carrying", () => {
  it("purges more the less is left, nothing for all of it", () => {
    expect(purgeKg(0.06, 1, 30_000, 295)).toBe(0);
    // A tenth of what was a tenth takes as much again.
    expect(purgeKg(0.06, 0.01, 30_000, 295)).toBeCloseTo(2 * purgeKg(0.06, 0.1, 30_000, 295), 12);
  });

  it("adds up battery modes: 30 W for 2 h and 90 W for 20 min are 90 Wh", () => {
    const modes = [
      { name: "walk", powerW: 30, seconds: 7200 },
      { name: "lamp", powerW: 90, seconds: 1200 },
    ];
    expect(batteryWh(modes)).toBe(90);
    expect(batteryS(90, 50)).toBe(6480);
    expect(batteryS(-1, 50)).toBe(0);
    expect(batteryS(1, 0)).toBe(Infinity);
  });

  it("rounds shared emergency time down, and lets the partner's water carry both heats", () => {
    expect(sharedEmergencyS(1801)).toBe(4502);
    expect(sharedWaterKgS(400, 300, 2430)).toBeCloseTo(700 / 2_430_000, 12);
    expect(sharedWaterKgS(400, -300, 2430)).toBeCloseTo(400 / 2_430_000, 12);
  });

  it("counts trips: the limit in one, a little more in two, two people together twice as much", () => {
    const limitKg = carryLimitKg(1.62);
    expect(carryTrips(limitKg, 1, 1.62)).toBe(1);
    expect(carryTrips(limitKg + 0.01, 1, 1.62)).toBe(2);
    expect(carryTrips(2 * limitKg, 2, 1.62)).toBe(1);
    expect(carryTrips(0, 1, 1.62)).toBe(0);
    expect(carryTrips(5, 0, 1.62)).toBe(Infinity);
    expect(carryLimitKg(9.80665)).toBeLessThan(limitKg);
  });
});
