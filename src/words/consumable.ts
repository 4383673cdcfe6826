import type { Consumable } from "../plan/index.ts";

/** What a consumable is called inside a sentence. */
export const CONSUMABLE_WORDS: Readonly<Record<Consumable, string>> = {
  oxygen: "oxygen",
  co2: "CO2 capacity",
  water: "cooling water",
  battery: "battery",
};
