import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  CONSUMABLES,
  drawPerSecond,
  purgeOf,
  reserves,
  stocks,
  type SuitModel,
  electricalW,
  type WornSuit,
} from "../../src/physics/index.ts";
import { co2KgPerJ, oxygenKgPerJ } from "../../src/physics/respiration.ts";
import { evenly } from "./evenly.ts";

const suits = fc.record<SuitModel>({
  oxygenKg: evenly(0, 3),
  co2Kg: evenly(0, 3),
  waterKg: evenly(0, 10),
  batteryWh: evenly(0, 2000),
  leakKgH: evenly(0, 0.1),
  electricalW: evenly(0, 300),
  environmentW: evenly(-500, 300),
  respiratoryQuotient: evenly(0.7, 1),
  coolingKjKg: evenly(1000, 3000),
  absorbentKjKg: evenly(0, 3000),
});
const rates = evenly(50, 1500);
const shares = evenly(0, 1);

describe("the electrical load of a suit", () => {
  it("is the mode's own where it has one, and the suit's else", () => {
    const suit = { electricalW: 50, walkingW: 60, workingW: 70 } as WornSuit;
    const modes = ["standing", "walking", "working"] as const;
    expect(modes.map((mode) => electricalW(suit, mode))).toEqual([50, 60, 70]);
    const plain = { electricalW: 50 } as WornSuit;
    expect(modes.map((mode) => electricalW(plain, mode))).toEqual([50, 50, 50]);
  });
});

describe("a suit in whole numbers", () => {
  it("draws whole numbers that are never less than the physics says, and less than one more", () => {
    fc.assert(
      fc.property(suits, rates, (suit, watts) => {
        const draw = drawPerSecond(suit, watts);
        for (const one of CONSUMABLES) {
          expect(Number.isSafeInteger(draw[one])).toBe(true);
          expect(draw[one]).toBeGreaterThanOrEqual(0);
        }
        const oxygen = 1e9 * (watts * oxygenKgPerJ(suit.respiratoryQuotient) + suit.leakKgH / 3600);
        const co2 = 1e9 * watts * co2KgPerJ(suit.respiratoryQuotient);
        for (const [have, exact] of [
          [draw.oxygen, oxygen],
          [draw.co2, co2],
          [draw.battery, suit.electricalW * 1000],
        ] as const) {
          expect(have).toBeGreaterThanOrEqual(exact - 1e-6);
          expect(have).toBeLessThan(exact + 1 + 1e-6);
        }
      }),
    );
  });

  it("spends water on metabolic, electrical, absorbent and environment heat, and none on cold", () => {
    const suit: SuitModel = {
      oxygenKg: 1,
      co2Kg: 1,
      waterKg: 5,
      batteryWh: 400,
      leakKgH: 0,
      electricalW: 50,
      environmentW: 28,
      respiratoryQuotient: 0.85,
      coolingKjKg: 2430,
      absorbentKjKg: 0,
    };
    // 322 + 50 + 28 = 400 W; 400 / 2 430 000 kg/s = 164 609.05 micrograms a second, rounded up.
    expect(drawPerSecond(suit, 322).water).toBe(164_610);
    // The absorbent adds 322 W * 0.0817214 kg/MJ * 2030 kJ/kg = 53.42 W: 186 592 micrograms a second.
    const warm = drawPerSecond({ ...suit, absorbentKjKg: 2030 }, 322).water;
    expect(Math.abs(warm - (400 + 53.4184) / 2.43e-3)).toBeLessThan(2);
    expect(drawPerSecond({ ...suit, environmentW: -500 }, 322).water).toBe(0);
  });

  it("never counts more stock than there is, nor less reserve than asked", () => {
    fc.assert(
      fc.property(suits, shares, (suit, share) => {
        const full = stocks(suit);
        expect(full.oxygen).toBeLessThanOrEqual(suit.oxygenKg * 1e9);
        expect(full.battery).toBeLessThanOrEqual(suit.batteryWh * 3.6e6);
        const kept = reserves(full, { oxygen: share, co2: share, water: share, battery: share });
        for (const one of CONSUMABLES) {
          expect(kept[one]).toBeGreaterThanOrEqual(full[one] * share);
          expect(kept[one]).toBeLessThanOrEqual(full[one]);
        }
      }),
    );
  });

  it("counts the oxygen of the purge up to the next microgram", () => {
    // 0.03 kg is 30,000,000 micrograms; a tenth of one more is a whole one more.
    expect(purgeOf({ purgeKg: 0.03 })).toBe(30_000_000);
    expect(purgeOf({ purgeKg: 0.030_000_000_1 })).toBe(30_000_001);
  });
});
