import {
  carriedKg,
  drawPerSecond,
  explainDraw,
  sharedEmergencyS,
  storedAfterJ,
} from "../../src/physics/index.ts";
import { ABSORPTANCE, SOLAR_W_M2, environmentHeatW } from "../../src/physics/environment.ts";
import { absorbentHeatW, heatLoadW } from "../../src/physics/heatbalance.ts";
import { coolingWaterKgS } from "../../src/physics/cooling.ts";
import { USUAL } from "../../src/plan/index.ts";
import { type Case, POUND_KG } from "./case.ts";
import { defaultSuit } from "./gas.cases.ts";
import { purgeKg } from "./models/purge.ts";

/** Heat balance, surroundings, purge, battery, emergency, carrying. */

const BALANCES = "NASA/TP-2015-218570 rev. 2 Table 4-69";
const STEFAN = 5.670374419e-8;

/** Feed water of the default suit at 272 W under a sun `elevationDeg` up, kg/h, in the whole numbers of the schedule. */
const waterUnderSun = (elevationDeg: number): number =>
  (drawPerSecond({ ...defaultSuit, environmentW: environmentHeatW(elevationDeg) }, 272).water * 3600) / 1e9;

/** Oxygen of a purge in small steps of flow instead of by the logarithm. */
function purgedInSteps(volumeM3: number, leftShare: number, densityKgM3: number): number {
  const part = 1e-5;
  let left = 1;
  let volumes = 0;
  while (left > leftShare) {
    left *= 1 - part;
    volumes += part;
  }
  return volumes * volumeM3 * densityKgM3;
}

export const suitCases: readonly Case[] = [
  {
    model: "environment",
    what: "ground under a sun overhead: sink of an upright cylinder, half sees black ground in balance, by hand",
    source: "radiative balance",
    provenance: "arithmetic",
    unit: "K",
    value: ((0.5 * (0.84 * 0.88 + 0.25 * 0.12) * 1361 * 1.034) / (0.84 * STEFAN)) ** 0.25,
    ours: () => (environmentHeatW(90, 1) / STEFAN + 300 ** 4) ** 0.25,
    within: 0.001,
  },
  {
    model: "environment",
    what: "heat leak over all sun elevations and shadow: within a suit's design range of -103 to 73 W, coldest",
    source: "-350 to +250 Btu/h",
    provenance: "value from memory",
    unit: "W",
    value: [-103, 73],
    ours: () => environmentHeatW(null),
    within: 0,
  },
  {
    model: "environment",
    what: "heat leak over all sun elevations and shadow: within a suit's design range of -103 to 73 W, hottest",
    source: "-350 to +250 Btu/h",
    provenance: "value from memory",
    unit: "W",
    value: [-103, 73],
    ours: () => Math.max(...Array.from({ length: 91 }, (_, deg) => environmentHeatW(deg))),
    within: 0,
  },
  {
    model: "environment",
    what: "sunlight reckoned with: the mean of 1361 W/m2 at perihelion, by the inverse square at a distance of 1 - 0.0167, 0.1 %",
    source: "Kopp & Lean 2011, Geophys Res Lett 38:L01706; eccentricity from memory",
    provenance: "value from memory",
    unit: "W/m2",
    value: 1361 / (1 - 0.0167) ** 2,
    ours: () => SOLAR_W_M2,
    within: 1.4,
  },
  {
    model: "environment",
    what: "sunlight taken up by white cloth, 0.18, with a tenth under dust of 0.88",
    source: "project assumption",
    provenance: "arithmetic",
    unit: "share",
    value: 0.25,
    ours: () => ABSORPTANCE,
    within: 1e-12,
  },
  {
    model: "environment",
    what: "default suit at 272 W, sun 5 degrees up: feed water, upper half of the polar range, 0.25 to 0.5",
    source: BALANCES,
    provenance: "as quoted",
    unit: "kg/h",
    value: [0.375, 0.5],
    ours: () => waterUnderSun(5),
    within: 0,
  },
  {
    model: "environment",
    what: "default suit at 272 W, sun 80 degrees up: feed water, upper half of the equatorial range, 0.46 to 0.76",
    source: BALANCES,
    provenance: "as quoted",
    unit: "kg/h",
    value: [0.61, 0.76],
    ours: () => waterUnderSun(80),
    within: 0,
  },
  {
    model: "reference/purge",
    what: "default purge: 30 l at 29.6 kPa and 293 K down to 5 %",
    source: "well-mixed vessel, ideal gas",
    provenance: "arithmetic",
    unit: "kg",
    value: defaultSuit.purgeKg,
    ours: () => purgeKg(0.03, 0.05, 29_600, 293),
    within: 0.0005,
  },
  {
    model: "heatbalance",
    what: "absorbent heat of the default suit: 2030 kJ for each kg of CO2 and 18.015 / 44.009 kg of water condensed at 2442 kJ/kg",
    source: "LiOH, values from memory",
    provenance: "arithmetic",
    unit: "kJ/kg",
    value: 2030 + (2442 * 18.015) / 44.009,
    ours: () => absorbentHeatW(1e-3, defaultSuit.absorbentKjKg),
    within: 1,
  },
  {
    model: "heatbalance",
    what: "400 W in all, cooling enough: feed water at 2430 kJ/kg",
    source: "3.6 Q / lambda",
    provenance: "arithmetic",
    unit: "kg/h",
    value: 0.5926,
    ours: () =>
      coolingWaterKgS(
        heatLoadW({ metabolicW: 300, electricalW: 50, absorbentW: 45, environmentW: 5 }),
        2430,
      ) * 3600,
    within: 0.00006,
  },
  {
    model: "heatstore",
    what: "peak of 2000 Btu/h against cooling for 1600 Btu/h: stored each second",
    source: "design envelope of metabolic rates, published",
    provenance: "arithmetic",
    unit: "W",
    value: 400 * 0.29307107,
    ours: () => storedAfterJ(0, 2000 * 0.29307107, 1600 * 0.29307107, 1),
    within: 0.0001,
  },
  {
    model: "heatstore",
    what: "the same peak for 15 min stores, in 80 kg, no more than the limit of 3.0 kJ/kg",
    source: "design envelope of metabolic rates; NASA-STD-3001 vol. 2",
    provenance: "value from memory",
    unit: "kJ/kg",
    value: [0, 3],
    ours: () => storedAfterJ(0, 2000 * 0.29307107, 1600 * 0.29307107, 900) / 80 / 1000,
    within: 0,
  },
  {
    model: "reference/purge",
    what: "60 litres to 5 % at 29.6 kPa and 295 K: by small steps of flow",
    source: "well-mixed vessel in steps",
    provenance: "reference",
    unit: "kg",
    value: purgedInSteps(0.06, 0.05, (29_600 * 0.031998) / (8.314462618 * 295)),
    ours: () => purgeKg(0.06, 0.05, 29_600, 295),
    within: 0.00001,
  },
  {
    model: "reference/purge",
    what: "one volume at standard pressure and temperature weighs 1.4276 g/L of oxygen, 0.1 %",
    source: "Weir 1949, J Physiol 109:1-9 (density at STPD)",
    provenance: "published",
    unit: "g",
    value: 1.4276,
    ours: () => purgeKg(0.001, Math.exp(-1), 101_325, 273.15) * 1000,
    within: 0.0015,
  },
  {
    model: "emergency",
    what: "pack of 30 min, cooling shared",
    source: "emergency oxygen, published in prose",
    provenance: "published",
    unit: "min",
    value: 75,
    ours: () => sharedEmergencyS(30 * 60) / 60,
    within: 0,
  },
  {
    model: "emergency",
    what: "pack of 30 min, cooling shared, at 3.6 km/h",
    source: "emergency oxygen, published in prose",
    provenance: "published",
    unit: "km",
    value: 4.5,
    ours: () => (sharedEmergencyS(30 * 60) * 1) / 1000,
    within: 0,
  },
  {
    model: "carry",
    what: "one person's load by the high value of the rule's default, 1 %",
    source: "420 Earth-lb of equipment = 70 Moon-lb",
    provenance: "published",
    unit: "lb",
    value: 420,
    ours: () => carriedKg(USUAL["rules.carry.greatestN"].high, 1.62, 1) / POUND_KG,
    within: 4.2,
  },
  {
    model: "explain",
    what: "oxygen drawn by the default suit at 272 W without leak, 0.548 kg over 8 h",
    source: "Weir 1949, J Physiol 109:1-9",
    provenance: "arithmetic",
    unit: "kg",
    value: 0.548,
    ours: () => explainDraw({ ...defaultSuit, leakKgH: 0 }, 272)[0]!.value * 8,
    within: 0.0006,
  },
];
