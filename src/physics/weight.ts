/**
 * Mass, weight and surface gravity.
 *
 * Formulas: weight `m g`; gravity of a sphere `GM / R^2`. Standard gravity 9.80665 m/s2. Units: kg, N, m/s2, m, m3/s2.
 * Range: any body. Not covered: rotation, flattening, height, local mass anomalies.
 */
const EARTH_MS2 = 9.80665;

/** Weight in N of `massKg` under `gravityMs2`. */
export function weightN(massKg: number, gravityMs2: number): number {
  return massKg * gravityMs2;
}

/** What a scale made for Earth shows under `gravityMs2`, in the unit of `onEarth`. */
export function apparentWeight(onEarth: number, gravityMs2: number): number {
  return (onEarth * gravityMs2) / EARTH_MS2;
}

/** Gravity in m/s2 at the surface of a sphere: `gm` in m3/s2 over `radiusM` squared. */
export function surfaceGravityMs2(gm: number, radiusM: number): number {
  return gm / radiusM ** 2;
}
