/**
 * Heat stored in a body.
 *
 * All heat that is not carried off is taken as stored; spare cooling takes stored heat out again at once. How much may be
 * stored is a rule of the plan. Range: uncooled heat of 50 to 1000 W. Not covered: skin temperature, sweating, heat let
 * out through the suit.
 */
/** Stored heat in J after `seconds` of a heat load of `loadW` against cooling of at most `capacityW`. */
export function storedAfterJ(storedJ: number, loadW: number, capacityW: number, seconds: number): number {
  if (loadW >= capacityW) return storedJ + (loadW - capacityW) * seconds;
  // Below zero there is nothing to carry off: the body loses it.
  if (loadW < 0) return storedJ + loadW * seconds;
  if (storedJ > 0) return Math.max(0, storedJ - (capacityW - loadW) * seconds);
  return Math.min(0, storedJ + loadW * seconds);
}
