import { describe, expect, it } from "vitest";
import { sharedEmergencyS, storedAfterJ } from "../../src/physics/index.ts";
import { environmentHeatW } from "../../src/physics/environment.ts";

describe("the heat of a suit", () => {
  it("is stored while cooling is not enough, and taken out again by what is spare, never below nothing", () => {
    // 500 W against 400 W for 10 min: 60 kJ; then 200 W: 200 W spare takes it out in 5 min.
    const after = storedAfterJ(0, 500, 400, 600);
    expect(after).toBe(60_000);
    expect(storedAfterJ(after, 200, 400, 150)).toBe(30_000);
    expect(storedAfterJ(after, 200, 400, 3000)).toBe(0);
    expect(storedAfterJ(0, -50, 400, 600)).toBe(-30_000);
    expect(storedAfterJ(-30_000, 50, 400, 300)).toBe(-15_000);
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

describe("emergency oxygen", () => {
  it("rounds shared emergency time down", () => {
    expect(sharedEmergencyS(1801)).toBe(4502);
  });
});
