/**
 * Drinking water for time outside.
 *
 * 0.24 kg per EVA hour: NASA-STD-3001 vol. 2, value from memory. Range: hours of work in a suit with a drink bag.
 * Not covered: cooling feed water, which is cooling.ts, and water drunk before and after.
 */
/** Kg an hour outside. */
export const DRINKING_KG_H = 0.24;

/** Whole seconds outside that `drinkKg` lasts at `kgH` an hour, rounded down; infinite where nothing is drunk. */
export function drinkingS(drinkKg: number, kgH: number): number {
  // Binary noise of the decimals is not a second.
  return kgH <= 0 ? Infinity : Math.floor((drinkKg / kgH) * 3600 + 1e-6);
}

/** Drinking water in kg for one crew member outside for `seconds`. */
export function drinkingWaterKg(seconds: number): number {
  return (DRINKING_KG_H * seconds) / 3600;
}
