import { farthestM, walkingMs } from "../../src/physics/index.ts";
import { toblerKmH } from "../../src/physics/gait.ts";
import type { Case } from "./case.ts";

/** Walking and reach. */

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
  walkback("30 min at 3.6 km/h", 1, 30 * 60, 1.8),
  walkback("75 min at 3.6 km/h, cooling shared", 1, 75 * 60, 4.5),
  walkback("2.94 h at 1.7 mph: 5 miles", (1.7 * MILE_M) / 3600, 2.94 * 3600, (5 * MILE_M) / 1000),
];
