/**
 * What one person in a suit may carry by hand.
 *
 * Measure: weight. 420 Earth-pounds of equipment, 70 Moon-pounds, were carried by one person (published): 309 N at
 * 1.62 m/s2. Taken as the limit for short level carries (project assumption). Range: low gravity, level ground, a
 * good grip. Not covered: mass that must be started and stopped, bulk, slopes: plan heavy or bulky loads for two.
 */
const CARRIED_KG = 420 * 0.45359237;
const MEASURED_MS2 = 1.62;

/** The greatest weight that one person carries, N. */
export const CARRY_N = CARRIED_KG * MEASURED_MS2;

/** The greatest mass in kg that one person carries under `gravityMs2`. */
export function carryLimitKg(gravityMs2: number): number {
  return CARRY_N / gravityMs2;
}

/** The greatest mass in kg that `people` carry under `gravityMs2` when each may carry `greatestN` of weight. */
export function carriedKg(greatestN: number, gravityMs2: number, people: number): number {
  return (greatestN / gravityMs2) * people;
}

/** Trips that `people` need for `massKg` in pieces of any size, at least 1 where there is something to carry. */
export function carryTrips(massKg: number, people: number, gravityMs2: number): number {
  if (people <= 0) return massKg > 0 ? Infinity : 0;
  // Binary noise of a load right at the limit is not another trip.
  return Math.max(0, Math.ceil(massKg / (carryLimitKg(gravityMs2) * people) - 1e-9));
}
