/**
 * Oxygen used and carbon dioxide made per joule of metabolic energy.
 *
 * Formula: Weir 1949, J Physiol 109:1-9: kcal = 3.941 VO2 + 1.106 VCO2, litres at STPD. VCO2 = RQ VO2.
 * Densities at STPD: O2 1.42760 g/L, CO2 1.96348 g/L. Range: RQ 0.70 to 1.00.
 * Not covered: anaerobic work, protein metabolism (in the formula's form without nitrogen).
 */
const JOULES_PER_KCAL = 4184;
const OXYGEN_KG_L = 1.4276e-3;
const CO2_KG_L = 1.96348e-3;

/** Metabolic energy in kcal per litre of oxygen at respiratory quotient `rq`. */
export function kcalPerLitreOxygen(rq: number): number {
  return 3.941 + 1.106 * rq;
}

/** Oxygen used, kg per joule. */
export function oxygenKgPerJ(rq: number): number {
  return OXYGEN_KG_L / (kcalPerLitreOxygen(rq) * JOULES_PER_KCAL);
}

/** Carbon dioxide made, kg per joule. */
export function co2KgPerJ(rq: number): number {
  return (rq * CO2_KG_L) / (kcalPerLitreOxygen(rq) * JOULES_PER_KCAL);
}
