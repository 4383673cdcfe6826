/**
 * Emergency oxygen, alone and with cooling shared by the partner.
 *
 * Alone the oxygen must also carry off heat and CO2 and lasts 30 min; with the partner's cooling water shared a
 * smaller flow is enough and it lasts about 75 min (packs that flew, published): 2.5 times as long. Other packs are
 * taken to scale alike (project assumption). Range: two people within reach of a hose. Not covered: the time to connect,
 * the slower pace of two people joined, the partner's feed water, which then carries both heat loads.
 */
const SHARED_OVER_ALONE = 75 / 30;

/** Whole seconds of emergency oxygen with shared cooling, rounded down, for a pack that alone lasts `aloneS`. */
export function sharedEmergencyS(aloneS: number): number {
  return Math.floor(aloneS * SHARED_OVER_ALONE);
}
