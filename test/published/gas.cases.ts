import { drawPerSecond, drinkingS, metabolicW, storedAfterJ } from "../../src/physics/index.ts";
import { coolingWaterKgS } from "../../src/physics/cooling.ts";
import { co2KgPerJ, kcalPerLitreOxygen, oxygenKgPerJ } from "../../src/physics/respiration.ts";
import { suitSchema } from "../../src/plan/crew.ts";
import { rulesSchema } from "../../src/plan/rules.ts";
import { type Case, POUND_KG } from "./case.ts";

/** Oxygen, carbon dioxide, heat, water, power. */

const WEIR = "Weir 1949, J Physiol 109:1-9";
const BALANCES = "NASA/TP-2015-218570 rev. 2 Table 4-69";
const PACKS = "portable life-support packs that flew";
const EIGHT_HOURS = 8 * 3600;
/** Of 2 LiOH + CO2 -> Li2CO3 + H2O, molar masses 23.948 and 44.009 g/mol, the 80 % that is reached in use (value from memory). */
const CO2_KG_PER_LIOH_KG = (0.8 * 44.009) / (2 * 23.948);
/** Hours that feed water lasts at a heat load. */
const cooledH = (waterKg: number, heatW: number): number => waterKg / coolingWaterKgS(heatW, 2430) / 3600;

/** A suit with every default the document has; stocks of the 8-hour class that flew. */
export const defaultSuit = suitSchema.parse({
  id: "suit",
  name: "Suit",
  massKg: 82,
  oxygenKg: 0.8,
  co2Kg: 1,
  waterKg: 11.5 * POUND_KG,
  batteryWh: 390,
  emergencyOxygenS: 1800,
});

const rules = rulesSchema.parse({});

/** Kg per hour drawn by the default suit at 272 W, summed over eight hours in the whole numbers of the schedule. */
function perHour(of: "oxygen" | "water"): number {
  let total = 0;
  const draw = drawPerSecond(defaultSuit, 272)[of];
  for (let second = 0; second < EIGHT_HOURS; second += 1) total += draw;
  return total / 1e9 / 8;
}

const quotient = (rq: number, kcalL: number, oxygen: number, co2: number): Case[] => [
  {
    model: "respiration",
    what: `energy per litre of oxygen, RQ ${rq.toFixed(2)}`,
    source: WEIR,
    provenance: "published",
    unit: "kcal/L",
    value: kcalL,
    ours: () => kcalPerLitreOxygen(rq),
    within: 0.00006,
  },
  {
    model: "respiration",
    what: `oxygen, RQ ${rq.toFixed(2)}`,
    source: WEIR,
    provenance: "arithmetic",
    unit: "kg/MJ",
    value: oxygen,
    ours: () => oxygenKgPerJ(rq) * 1e6,
    within: 0.00001,
  },
  {
    model: "respiration",
    what: `carbon dioxide, RQ ${rq.toFixed(2)}`,
    source: WEIR,
    provenance: "arithmetic",
    unit: "kg/MJ",
    value: co2,
    ours: () => co2KgPerJ(rq) * 1e6,
    within: 0.00001,
  },
];
const balance = (
  source: string,
  provenance: Case["provenance"],
  megajoules: number,
  rq: number,
  oxygen: number,
  co2: number,
): Case[] => [
  {
    model: "respiration",
    what: `daily balance of ${megajoules} MJ, RQ ${rq}: oxygen, 4 %`,
    source,
    provenance,
    unit: "kg",
    value: oxygen,
    ours: () => megajoules * 1e6 * oxygenKgPerJ(rq),
    within: 0.04 * oxygen,
  },
  {
    model: "respiration",
    what: `daily balance of ${megajoules} MJ, RQ ${rq}: carbon dioxide, 4 %`,
    source,
    provenance,
    unit: "kg",
    value: co2,
    ours: () => megajoules * 1e6 * co2KgPerJ(rq),
    within: 0.04 * co2,
  },
];
const eightHours = (gas: string, perJ: (rq: number) => number, value: number): Case => ({
  model: "respiration",
  what: `272 W for 8 h: ${gas}`,
  source: WEIR,
  provenance: "arithmetic",
  unit: "kg",
  value,
  ours: () => metabolicW("overall", 1) * EIGHT_HOURS * perJ(0.85),
  within: 0.0006,
});
const cooling = (heatW: number, value: number): Case => ({
  model: "cooling",
  what: `feed water at ${heatW} W, 2430 kJ/kg`,
  source: "3.6 Q / lambda",
  provenance: "arithmetic",
  unit: "kg/h",
  value,
  ours: () => coolingWaterKgS(heatW, 2430) * 3600,
  within: 0.00006,
});
const pack = (name: string, hours: number, liohLb: number, waterLb: number): Case[] => [
  {
    model: "respiration",
    what: `${name} pack, ${liohLb} lb LiOH at 80 % of stoichiometry: hours at 272 W are at least its class`,
    source: PACKS,
    provenance: "published",
    unit: "h",
    value: [hours, Infinity],
    ours: () => (liohLb * POUND_KG * CO2_KG_PER_LIOH_KG) / (272 * co2KgPerJ(0.85)) / 3600,
    within: 0,
  },
  {
    model: "cooling",
    what: `${name} pack, ${waterLb} lb water: hours at a 400 W heat load are at least its class`,
    source: PACKS,
    provenance: "published",
    unit: "h",
    value: [hours, Infinity],
    ours: () => cooledH(waterLb * POUND_KG, 400),
    within: 0,
  },
];
/** The load that empties a pack's battery in the hours of its class, found in the whole numbers of the schedule. */
const hoursOfBattery = (wattHours: number, electricalW: number): number =>
  (wattHours * 3_600_000) / drawPerSecond({ ...defaultSuit, electricalW }, 272).battery / 3600;

export const gasCases: readonly Case[] = [
  ...quotient(0.7, 4.7152, 0.07236, 0.06967),
  ...quotient(0.85, 4.8811, 0.0699, 0.08172),
  ...quotient(1, 5.047, 0.0676, 0.09298),
  {
    model: "respiration",
    what: "VO2 0.30 L/min, VCO2 0.24 L/min, worked",
    source: WEIR,
    provenance: "published",
    unit: "kcal/min",
    value: 1.4477,
    ours: () => 0.3 * kcalPerLitreOxygen(0.24 / 0.3),
    within: 0.00006,
  },
  eightHours("oxygen", oxygenKgPerJ, 0.548),
  eightHours("carbon dioxide", co2KgPerJ, 0.64),
  ...balance("NASA RP-1324 (1994)", "published", 11.817, 0.87, 0.84, 1),
  ...balance("BVAD 2004", "published", 11.82, 0.869, 0.835, 0.998),
  ...balance("NASA/TP-2015-218570 rev. 2 (RQ not given: default)", "as quoted", 12.778, 0.85, 0.895, 1.085),
  {
    model: "respiration",
    what: "metabolic share of lunar EVA oxygen, 1.06 MJ/h, RQ 0.85",
    source: BALANCES,
    provenance: "arithmetic",
    unit: "kg/h",
    value: 0.0741,
    ours: () => 1.06e6 * oxygenKgPerJ(0.85),
    within: 0.0001,
  },
  {
    model: "suit",
    what: "default suit, 8 h at 272 W: oxygen with leakage per hour",
    source: BALANCES,
    provenance: "as quoted",
    unit: "kg/h",
    value: [0.069, 0.11],
    ours: () => perHour("oxygen"),
    within: 0,
  },
  {
    model: "suit",
    what: "default suit, 8 h at 272 W: feed water per hour, polar low to equatorial high",
    source: BALANCES,
    provenance: "as quoted",
    unit: "kg/h",
    value: [0.25, 0.76],
    ours: () => perHour("water"),
    within: 0,
  },
  {
    model: "suit",
    what: "4-hour class battery, 279 Wh, at 69.8 W",
    source: PACKS,
    provenance: "published",
    unit: "h",
    value: 4,
    ours: () => hoursOfBattery(279, 69.8),
    within: 0.01,
  },
  {
    model: "suit",
    what: "8-hour class battery, 390 Wh, at 48.8 W",
    source: PACKS,
    provenance: "published",
    unit: "h",
    value: 8,
    ours: () => hoursOfBattery(390, 48.8),
    within: 0.01,
  },
  {
    model: "suit",
    what: "default electrical load against the mean of the 8-hour class, not below it and within 5 %",
    source: PACKS,
    provenance: "published",
    unit: "W",
    value: [390 / 8, (1.05 * 390) / 8],
    ours: () => drawPerSecond(defaultSuit, 272).battery / 1000,
    within: 0,
  },
  ...pack("4-hour class", 4, 3, 8.5),
  ...pack("8-hour class", 8, 3.12, 11.5),
  cooling(272, 0.403),
  cooling(400, 0.5926),
  {
    model: "cooling",
    what: "heat carried off by 11.5 lb of water",
    source: PACKS,
    provenance: "arithmetic",
    unit: "Wh",
    value: 3521,
    ours: () => 400 * cooledH(11.5 * POUND_KG, 400),
    within: 0.6,
  },
  {
    model: "cooling",
    what: "11.5 lb of water at a 400 W heat load",
    source: PACKS,
    provenance: "arithmetic",
    unit: "h",
    value: 8.8,
    ours: () => cooledH(11.5 * POUND_KG, 400),
    within: 0.05,
  },
  {
    model: "heatstore",
    what: "80 kg at 272 W with no cooling for 14.7 min: the limit of the standard, which is the default of the rule",
    source: "NASA-STD-3001 vol. 2",
    provenance: "value from memory",
    unit: "kJ/kg",
    value: rules.heat.mostKjKg,
    ours: () => storedAfterJ(0, 272, 0, 14.7 * 60) / 80 / 1000,
    within: 0.002,
  },
  {
    model: "drinking",
    what: "0.24 kg by the default of the rule",
    source: "NASA-STD-3001 vol. 2",
    provenance: "value from memory",
    unit: "s",
    value: 3600,
    ours: () => drinkingS(0.24, rules.drinking.kgH),
    within: 0,
  },
];
