import {
  apparentWeight,
  farthestM,
  froudeMs,
  horizonM,
  lastsS,
  shadowPerHeight,
  stocks,
  surfaceGravityMs2,
  toblerKmH,
  walkingMs,
  weightN,
} from "../../src/physics/index.ts";
import { defaultSuit } from "./gas.cases.ts";
import { type Case, POUND_KG } from "./case.ts";

/** Walking, reach, weight, horizon, shadow and a steady sun. */

const TOBLER = "Tobler 1993, NCGIA TR 93-1";
const WALKBACK = "emergency oxygen, published in prose";
const MILE_M = 1609.344;

const tobler = (slope: number, value: number): Case => ({
  model: "gait",
  what: `slope ${slope}`,
  source: TOBLER,
  provenance: "published",
  unit: "km/h",
  value,
  ours: () => toblerKmH(slope),
  within: 0.00006,
});
const froude = (number: number, value: number): Case => ({
  model: "froude",
  what: `Froude number ${number}, leg 0.9 m, 1.62 m/s2`,
  source: "De Witt et al. 2014, J Exp Biol 217:3200",
  provenance: number === 1.39 ? "published" : "arithmetic",
  unit: "m/s",
  value,
  ours: () => froudeMs(number, 1.62, 0.9),
  within: 0.0006,
});
const horizon = (heightM: number, value: number, provenance: Case["provenance"]): Case => ({
  model: "horizon",
  what: `from ${heightM} m on the Moon`,
  source: "sqrt(2 R h + h^2)",
  provenance,
  unit: "m",
  value,
  ours: () => horizonM(1_737_400, heightM),
  within: 0.06,
});
const shadow = (deg: number, value: number): Case => ({
  model: "shadow",
  what: `sun at ${deg} degrees`,
  source: "cotangent",
  provenance: "arithmetic",
  unit: "times height",
  value,
  ours: () => shadowPerHeight(deg),
  within: 0.0006,
});
const walkback = (what: string, speedMs: number, seconds: number, value: number): Case => ({
  model: "reach",
  what,
  source: WALKBACK,
  provenance: "published",
  unit: "km",
  value,
  ours: () => farthestM(speedMs, seconds, 1) / 1000,
  within: 0.001 * value,
});

export const groundCases: readonly Case[] = [
  tobler(-0.05, 6),
  tobler(0, 5.0367),
  tobler(-0.1, 5.0367),
  tobler(0.1, 3.5493),
  tobler(0.2, 2.5012),
  tobler(-0.2, 3.5493),
  {
    model: "gait",
    what: "suited descent of 13 degrees at the fastest level walk timed, 5.5 km/h: no faster than was timed, 5.1",
    source: "suited speeds timed in 1/6 g",
    provenance: "published",
    unit: "km/h",
    value: [0, 5.1],
    ours: () => 3.6 * walkingMs(5.5 / 3.6, -Math.tan((13 * Math.PI) / 180)),
    within: 0,
  },
  froude(0.5, 0.854),
  froude(1.39, 1.424),
  walkback("30 min at 3.6 km/h", 1, 30 * 60, 1.8),
  walkback("75 min at 3.6 km/h, cooling shared", 1, 75 * 60, 4.5),
  walkback("2.94 h at 1.7 mph: 5 miles", (1.7 * MILE_M) / 3600, 2.94 * 3600, (5 * MILE_M) / 1000),
  {
    model: "reach",
    what: "11.5 lb of water without reserve at 0.5926 kg/h lasts the 8.8 h of a 400 W heat load",
    source: "portable life-support packs that flew",
    provenance: "arithmetic",
    unit: "h",
    value: 8.8,
    ours: () => {
      const none = { oxygen: 0, co2: 0, water: 0, battery: 0 };
      return lastsS(stocks(defaultSuit), none, { ...none, water: 0.5926e9 / 3600 }) / 3600;
    },
    within: 0.05,
  },
  {
    model: "weight",
    what: "gravity of the Moon from GM 4902.800 km3/s2 and 1737.4 km",
    source: "GM / R^2",
    provenance: "arithmetic",
    unit: "m/s2",
    value: 1.6242,
    ours: () => surfaceGravityMs2(4902.8e9, 1_737_400),
    within: 0.00006,
  },
  {
    model: "weight",
    what: "420 Earth-pounds of equipment on the Moon, 1 %",
    source: "420 lb and 70 lb, published in prose",
    provenance: "published",
    unit: "lb",
    value: 70,
    ours: () => apparentWeight(420, 1.62),
    within: 0.7,
  },
  {
    model: "weight",
    what: "200 Earth-pounds on the Moon",
    source: "common practice, no source",
    provenance: "value from memory",
    unit: "lb",
    value: 33,
    ours: () => apparentWeight(200, 1.62),
    within: 0.5,
  },
  {
    model: "weight",
    what: "200 lb of mass at 1.62 m/s2",
    source: "m g",
    provenance: "arithmetic",
    unit: "N",
    value: 146.96,
    ours: () => weightN(200 * POUND_KG, 1.62),
    within: 0.006,
  },
  horizon(1.5, 2283, "published"),
  horizon(1.7, 2430.5, "arithmetic"),
  horizon(10, 5894.7, "arithmetic"),
  shadow(5, 11.43),
  shadow(10, 5.671),
  shadow(14, 4.011),
];
