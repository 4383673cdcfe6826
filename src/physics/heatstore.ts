/**
 * Heat stored in a body: how much, and how long until its limit.
 *
 * Limits of heat storage -1.9 and +3.0 kJ per kg of body (NASA-STD-3001 vol. 2, value from memory); all heat that is
 * not carried off taken as stored; spare cooling takes stored heat out again at once. Range: uncooled heat of 50 to
 * 1000 W. Not covered: skin temperature, sweating, heat let out through the suit.
 */
const MOST_KJ_KG = 3;
const LEAST_KJ_KG = -1.9;

/** Seconds until `uncooledW` fills the heat storage of `bodyKg`; infinite when nothing is stored. */
export function heatStorageS(bodyKg: number, uncooledW: number): number {
  return heatLimitS(bodyKg, 0, Math.max(0, uncooledW));
}

/** Seconds until `netW` more (less when negative) brings a body that holds `storedJ` to a limit; 0 beyond it. */
export function heatLimitS(bodyKg: number, storedJ: number, netW: number): number {
  if (netW === 0) return Infinity;
  const limitJ = (netW > 0 ? MOST_KJ_KG : LEAST_KJ_KG) * 1000 * bodyKg;
  return Math.max(0, (limitJ - storedJ) / netW);
}

/** Stored heat in J after `seconds` of a heat load of `loadW` against cooling of at most `capacityW`. */
export function storedAfterJ(storedJ: number, loadW: number, capacityW: number, seconds: number): number {
  if (loadW >= capacityW) return storedJ + (loadW - capacityW) * seconds;
  // Below zero there is nothing to carry off: the body loses it.
  if (loadW < 0) return storedJ + loadW * seconds;
  if (storedJ > 0) return Math.max(0, storedJ - (capacityW - loadW) * seconds);
  return Math.min(0, storedJ + loadW * seconds);
}

/**
 * Stored heat as a share of the limit on its side: 1 is the limit, below 0 the cold side; beyond 1 or -1 is over it.
 */
export function storedShare(bodyKg: number, storedJ: number): number {
  const limitJ = (storedJ >= 0 ? MOST_KJ_KG : -LEAST_KJ_KG) * 1000 * bodyKg;
  return storedJ / limitJ;
}
