/**
 * Drinking water for time outside.
 *
 * 0.24 kg per EVA hour: NASA-STD-3001 vol. 2, value from memory. Range: hours of work in a suit with a drink bag.
 * Not covered: cooling feed water, which is cooling.ts, and water drunk before and after.
 */
const KG_PER_HOUR = 0.24;

/** Drinking water in kg for one crew member outside for `seconds`. */
export function drinkingWaterKg(seconds: number): number {
  return (KG_PER_HOUR * seconds) / 3600;
}
