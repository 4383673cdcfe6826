/**
 * Feed water that an evaporator or sublimator spends on a heat load.
 *
 * Formula: `kg/s = Q / lambda`. The feed is liquid, so lambda is about 2430 kJ/kg, not the ice-to-vapour 2834. No heat
 * is stored or carried over: a heat load below zero needs no water. Range: lambda 1000 to 3000 kJ/kg.
 * Not covered: start-up and shut-down losses, water wasted by freezing, radiators.
 */

/** Feed water in kg/s for `heatW`, each kg carrying off `coolingKjKg`. */
export function coolingWaterKgS(heatW: number, coolingKjKg: number): number {
  return Math.max(0, heatW) / (coolingKjKg * 1000);
}
