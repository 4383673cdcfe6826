import { describe, expect, it } from "vitest";
import { suitSchema } from "../../src/plan/crew.ts";
import { rulesSchema } from "../../src/plan/rules.ts";
import { bodySchema } from "../../src/plan/site.ts";

/** The defaults of a new plan against the limits and practices they claim to come from. */
const rules = rulesSchema.parse({});
const FOOT_M = 0.3048;
const body = bodySchema.parse({});

describe("published limits", () => {
  it("has the gravity of the Moon, GM 4902.800 km3/s2 over 1737.4 km squared, to 0.3 %", () => {
    expect(Math.abs(body.gravityMs2 / (4902.8e9 / 1_737_400 ** 2) - 1)).toBeLessThan(0.003);
  });

  it("keeps EVA to 24 h for each crew member (Stromgren et al. 2015, IEEE Aerospace, as quoted)", () => {
    expect(rules.duty.stayS).toBeLessThanOrEqual(24 * 3600);
  });

  it("leaves 3 h after an EVA and 2 h before the next (planning assumption, value from memory)", () => {
    expect(rules.recharge.leastS).toBeGreaterThanOrEqual((3 + 2) * 3600);
  });

  it("keeps instruments 300 ft from the lander, 91.44 m (common practice, no source)", () => {
    expect(rules.blast.leastM).toBeGreaterThanOrEqual(300 * FOOT_M);
  });

  it("walks back no faster than it plans to walk, nor slower than the outing mean, 2.2 km/h (as quoted)", () => {
    expect(rules.walkback.speedMs).toBeLessThanOrEqual(rules.walking.speedMs);
    expect(rules.walkback.speedMs * 3.6).toBeGreaterThanOrEqual(2.2);
  });

  it("plans no faster than the slowest timed level walk, 3.3 km/h, nor slower than the outing mean, 2.2 (as quoted)", () => {
    expect(rules.walking.speedMs * 3.6).toBeLessThanOrEqual(3.3);
    expect(rules.walking.speedMs * 3.6).toBeGreaterThanOrEqual(2.2);
  });

  it("takes a heavier rate for the walk back than the measured mean on foot, 295.5 W (NASA SP-368, rows from memory)", () => {
    expect(rules.walkback.metabolicW).toBeGreaterThan(295.5);
  });

  it("limits returned mass inside what six missions brought, 21.55 to 110.52 kg (value from memory, 2 %)", () => {
    expect(rules.returnMass.greatestKg).toBeGreaterThanOrEqual(21.55 * 0.98);
    expect(rules.returnMass.greatestKg).toBeLessThanOrEqual(110.52 * 1.02);
  });

  it("accepts an 11.5 lb water, 390 Wh pack with 30 min of emergency oxygen (published) and no heat below liquid feed", () => {
    const suit = suitSchema.parse({
      id: "suit",
      name: "Suit",
      massKg: 82,
      oxygenKg: 0.8,
      co2Kg: 1,
      waterKg: 5.216,
      batteryWh: 390,
      emergencyOxygenS: 30 * 60,
    });
    // Ice-to-vapour heat, 2834 kJ/kg, would promise more cooling than liquid feed gives.
    expect(suit.coolingKjKg).toBeLessThan(2834);
    expect(suit.respiratoryQuotient).toBe(0.85);
  });
});
