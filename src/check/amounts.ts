import type { Amounts, Consumable } from "../physics/index.ts";

/** Whole-number units of the judge (micrograms, milliwatt-seconds, grams, millilitres) and what people read. */

const PER_KG = 1e9;
const PER_WH = 3_600_000;

/** The unit people read a consumable in. */
export function unitOf(consumable: Consumable): "kg" | "Wh" {
  return consumable === "battery" ? "Wh" : "kg";
}

/** A whole amount as kg or Wh. */
export function readable(consumable: Consumable, whole: number): number {
  return whole / (consumable === "battery" ? PER_WH : PER_KG);
}

/** `before` less `seconds` of `rate`. */
export function drawn(before: Amounts, rate: Amounts, seconds: number): Amounts {
  return {
    oxygen: before.oxygen - rate.oxygen * seconds,
    co2: before.co2 - rate.co2 * seconds,
    water: before.water - rate.water * seconds,
    battery: before.battery - rate.battery * seconds,
  };
}

/** Thousandths (grams of kg, millilitres of litres) of a load, rounded up; binary noise of the decimal is not a gram. */
export function loadThousandths(value: number): number {
  return Math.ceil(value * 1000 - 1e-6);
}

/** Thousandths of a capacity, rounded down. */
export function capacityThousandths(value: number): number {
  return Math.floor(value * 1000 + 1e-6);
}
