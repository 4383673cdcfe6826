/**
 * How long a body can take in heat that is not carried off.
 *
 * Limit of heat storage +3.0 kJ per kg of body (NASA-STD-3001 vol. 2, value from memory); all heat taken as stored.
 * Range: uncooled heat of 50 to 1000 W. Not covered: skin temperature, sweating, heat let out through the suit.
 */
const STORED_KJ_KG = 3;

/** Seconds until `uncooledW` fills the heat storage of `bodyKg`; infinite when nothing is stored. */
export function heatStorageS(bodyKg: number, uncooledW: number): number {
  return uncooledW <= 0 ? Infinity : (STORED_KJ_KG * 1000 * bodyKg) / uncooledW;
}
