/**
 * Metabolic rate of running under lunar gravity.
 *
 * About 2 J per kg and metre: Pavei, Biancardi & Minetti 2015, J Appl Physiol 119:93-100.
 * Range: running and skipping in simulated lunar gravity. Not covered: suits, whose mass is taken to count as that of the body
 * (project assumption), slopes, loads.
 */
const JOULES_PER_KG_M = 2;

/** Metabolic rate in W of running `massKg` at `speedMs`. */
export function runningW(massKg: number, speedMs: number): number {
  return JOULES_PER_KG_M * massKg * speedMs;
}
