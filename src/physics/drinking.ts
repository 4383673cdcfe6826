/**
 * Drinking water for time outside.
 *
 * How much is drunk an hour is a rule of the plan. Range: hours of work in a suit with a drink bag.
 * Not covered: cooling feed water, which is cooling.ts, and water drunk before and after.
 */
/** Whole seconds outside that `drinkKg` lasts at `kgH` an hour, rounded down; infinite where nothing is drunk. */
export function drinkingS(drinkKg: number, kgH: number): number {
  // Binary noise of the decimals is not a second.
  return kgH <= 0 ? Infinity : Math.floor((drinkKg / kgH) * 3600 + 1e-6);
}
