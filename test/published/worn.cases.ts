import { check } from "../../src/check/index.ts";
import { environmentHeatW, environmentMostW } from "../../src/physics/environment.ts";
import { type Suit, USUAL } from "../../src/plan/index.ts";
import { suitSchema } from "../../src/plan/crew.ts";
import { at, eva, task, tinyPlan } from "../check/tinyPlan.ts";
import type { Case } from "./case.ts";
import { defaultSuit } from "./gas.cases.ts";

/** A whole day as the judge sees it, and the heat that it reckons with. */

const BALANCES = "NASA/TP-2015-218570 rev. 2 Table 4-69";
const HOURS = 8;
/** 1.06 MJ an hour. */
const BALANCE_W = 1.06e6 / 3600;

/**
 * Kg an hour that one crew member in the default suit draws on an EVA of 8 h at the measured mean rate or another, in the whole numbers of the judge, at a
 * latitude with the sun well up over the meridian of the site.
 */
function drawnPerHour(of: "oxygen" | "water", latDeg: number, more: Partial<Suit> = {}, watts = 272): number {
  const plan = tinyPlan({
    site: { latDeg, lonDeg: 60 },
    crew: [{ id: "ev1", name: "EV1", bodyMassKg: 80, suit: "suit" }],
    evas: [eva("eva-1", { crew: ["ev1"], egressWorkS: 0, ingressWorkS: 0 })],
    tasks: [task("day", "lander", { effort: { watts }, duration: { likelyS: HOURS * 3600 } })],
    placements: [at("day", 0)],
    suit: {
      ...suitSchema.parse(defaultSuit),
      oxygenKg: 2,
      co2Kg: 3,
      waterKg: 9,
      batteryWh: 900,
      ...more,
    },
    more: { body: {} },
  });
  const verdict = check(plan);
  if (verdict.score.breaches > 0) throw new Error(verdict.findings.map((one) => one.sentence).join(" "));
  const { points } = verdict.margins.find((one) => one.consumable === of)!;
  return (points[0]!.value - points.at(-1)!.value) / HOURS;
}

/** The greatest heat on sunlit ground from one elevation to another, looked for in small steps. */
function greatestOf(fromDeg: number, toDeg: number): number {
  let most = -Infinity;
  for (let k = 0; k <= 100_000; k += 1)
    most = Math.max(most, environmentHeatW(fromDeg + ((toDeg - fromDeg) * k) / 100_000));
  return most;
}

const most = (fromDeg: number, toDeg: number): Case => ({
  model: "worn",
  what: `greatest heat from the surroundings, sun from ${fromDeg} to ${toDeg} degrees up, against a search in small steps`,
  source: "environment",
  provenance: "reference",
  unit: "W",
  value: greatestOf(fromDeg, toDeg),
  ours: () => environmentMostW(fromDeg, toDeg),
  within: 1e-5,
});

export const wornCases: readonly Case[] = [
  {
    model: "worn",
    what: "8 h outside at the measured mean rate, judged as a schedule: oxygen with leakage",
    source: BALANCES,
    provenance: "as quoted",
    unit: "kg/h",
    value: [0.069, 0.11],
    ours: () => drawnPerHour("oxygen", 0),
    within: 0,
  },
  {
    model: "worn",
    what: "the same at 1.06 MJ an hour, the rate that the balance is for: oxygen with leakage, at least its nominal 0.092",
    source: BALANCES,
    provenance: "as quoted",
    unit: "kg/h",
    value: [0.092, 0.1],
    ours: () => drawnPerHour("oxygen", 0, {}, BALANCE_W),
    within: 0,
  },
  {
    model: "worn",
    what: "the same with the high leak: the high 0.110",
    source: BALANCES,
    provenance: "as quoted",
    unit: "kg/h",
    value: 0.11,
    ours: () => drawnPerHour("oxygen", 0, { leakKgH: USUAL["suits.*.leakKgH"].high }, BALANCE_W),
    within: 0.0005,
  },
  {
    model: "worn",
    what: "at the measured mean near the pole, low sun all day: cooling water, upper half of the polar range, 0.25 to 0.5",
    source: BALANCES,
    provenance: "as quoted",
    unit: "kg/h",
    value: [0.375, 0.5],
    ours: () => drawnPerHour("water", 85),
    within: 0,
  },
  {
    model: "worn",
    what: "the same at the equator under a high sun: cooling water, upper half of the equatorial range, 0.46 to 0.76",
    source: BALANCES,
    provenance: "as quoted",
    unit: "kg/h",
    value: [0.61, 0.76],
    ours: () => drawnPerHour("water", 0),
    within: 0,
  },
  most(5, 14),
  most(0, 90),
  most(60, 90),
];
