/**
 * Oxygen that goes into purging a suit of other gas: where the default of a suit's purge comes from.
 *
 * Well-mixed vessel: after `n` volumes have flowed through, `exp(-n)` of the other gas is left. Density of the gas
 * `p M / (R T)`. Range: absolute pressures to 100 kPa. Not covered: dead corners of a suit, which take longer.
 */
const GAS_J_MOL_K = 8.314462618;
const OXYGEN_KG_MOL = 0.031998;

/** Density of oxygen in kg/m3 at `pressurePa` and `temperatureK`. */
function oxygenKgM3(pressurePa: number, temperatureK: number): number {
  return (pressurePa * OXYGEN_KG_MOL) / (GAS_J_MOL_K * temperatureK);
}

/** Oxygen in kg that purges `volumeM3` down to `leftShare` (above 0, to 1) of the other gas. */
export function purgeKg(
  volumeM3: number,
  leftShare: number,
  pressurePa: number,
  temperatureK: number,
): number {
  return Math.log(1 / leftShare) * volumeM3 * oxygenKgM3(pressurePa, temperatureK);
}
