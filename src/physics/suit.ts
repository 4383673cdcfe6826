import { coolingWaterKgS } from "./cooling.ts";
import { absorbentHeatW, heatLoadW } from "./heatbalance.ts";
import { co2KgPerJ, oxygenKgPerJ } from "./respiration.ts";

/**
 * What a suit draws from its stocks at a metabolic rate: the one place where floating point becomes whole
 * numbers. Rates are rounded up and stocks down, so that sums over whole seconds are exact and err to safety.
 *
 * The heat that feed water carries off is metabolic, electrical, absorbent and environment heat together: that of
 * LiOH is 2.03 MJ per kg of CO2, and 1.00 MJ more where the water that it makes condenses in the pack (values from memory).
 * Range: steady work of minutes and longer. Not covered: airlock losses, ageing of the battery. Feed water is
 * charged when heat is made, also where the body stores it for a while: never later than it is spent.
 */

/** The suit's numbers that matter here; the plan's suit has them all. */
export interface SuitModel {
  readonly oxygenKg: number;
  readonly co2Kg: number;
  readonly waterKg: number;
  readonly batteryWh: number;
  readonly leakKgH: number;
  readonly electricalW: number;
  readonly environmentW: number;
  readonly respiratoryQuotient: number;
  readonly coolingKjKg: number;
  readonly absorbentKjKg: number;
}

/** The four consumables in the order used everywhere: oxygen, CO2 capacity, cooling water, battery. */
export const CONSUMABLES = ["oxygen", "co2", "water", "battery"] as const;
export type Consumable = (typeof CONSUMABLES)[number];

/** Whole numbers by consumable: micrograms (oxygen, co2, water), milliwatt-seconds (battery); per second for rates. */
export type Amounts = Readonly<Record<Consumable, number>>;

const MICROGRAMS = 1e9;
const MILLIWATT_SECONDS_PER_WH = 3_600_000;

/** Draw per second at `metabolicW`, each rounded up: micrograms/s and milliwatts. */
export function drawPerSecond(suit: SuitModel, metabolicW: number): Amounts {
  const oxygenKgS = metabolicW * oxygenKgPerJ(suit.respiratoryQuotient) + suit.leakKgH / 3600;
  const co2KgS = metabolicW * co2KgPerJ(suit.respiratoryQuotient);
  const absorbentW = absorbentHeatW(co2KgS, suit.absorbentKjKg);
  const { electricalW, environmentW } = suit;
  const heatW = heatLoadW({ metabolicW, electricalW, absorbentW, environmentW });
  return {
    oxygen: Math.ceil(oxygenKgS * MICROGRAMS),
    co2: Math.ceil(co2KgS * MICROGRAMS),
    water: Math.ceil(coolingWaterKgS(heatW, suit.coolingKjKg) * MICROGRAMS),
    battery: Math.ceil(suit.electricalW * 1000),
  };
}

/** The suit's full stocks, each rounded down: micrograms and milliwatt-seconds. */
export function stocks(suit: SuitModel): Amounts {
  return {
    oxygen: Math.floor(suit.oxygenKg * MICROGRAMS),
    co2: Math.floor(suit.co2Kg * MICROGRAMS),
    water: Math.floor(suit.waterKg * MICROGRAMS),
    battery: Math.floor(suit.batteryWh * MILLIWATT_SECONDS_PER_WH),
  };
}

/** Oxygen that the purge before egress takes from the pack, micrograms, rounded up. */
export function purgeOf(suit: { readonly purgeKg: number }): number {
  return Math.ceil(suit.purgeKg * MICROGRAMS);
}

/** What must be left of `full`, rounded up, from shares of the stock. */
export function reserves(full: Amounts, share: Amounts): Amounts {
  return {
    oxygen: Math.ceil(full.oxygen * share.oxygen),
    co2: Math.ceil(full.co2 * share.co2),
    water: Math.ceil(full.water * share.water),
    battery: Math.ceil(full.battery * share.battery),
  };
}
