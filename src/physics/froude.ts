/**
 * Speed at which walking turns into running or loping, by leg length and gravity.
 *
 * Formula: `v = sqrt(Fr g L)`, Fr the Froude number of the change: about 0.5 on Earth; 1.39 +/- 0.45 measured in true
 * lunar gravity (De Witt et al. 2014, J Exp Biol 217:3200). Units: m/s2, m.
 * Range: unsuited walkers on the level. Not covered: suits, which change the gait earlier.
 */

/** Speed in m/s at Froude number `froude` for a leg of `legM` under `gravityMs2`. */
export function froudeMs(froude: number, gravityMs2: number, legM: number): number {
  return Math.sqrt(froude * gravityMs2 * legM);
}
