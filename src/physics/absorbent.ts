/**
 * Carbon dioxide that lithium hydroxide takes up.
 *
 * Stoichiometry: 2 LiOH + CO2 -> Li2CO3 + H2O, molar masses 23.948 and 44.009 g/mol: 0.9189 kg CO2 per kg LiOH.
 * In use 70 to 95 percent of that is reached before the outlet rises, default 80 percent (value from memory).
 * Range: fresh cartridges. Not covered: how the outlet rises towards the end, part-used and regenerable beds.
 */
const LIOH_G_MOL = 23.948;
const CO2_G_MOL = 44.009;

/** Kg of CO2 that a kg of LiOH can take at the very most. */
export const CO2_PER_LIOH = CO2_G_MOL / (2 * LIOH_G_MOL);

/** Kg of CO2 that `liohKg` takes in practice; `use` is the share of stoichiometry reached, 0.70 to 0.95. */
export function absorbedCo2Kg(liohKg: number, use = 0.8): number {
  return liohKg * CO2_PER_LIOH * use;
}
