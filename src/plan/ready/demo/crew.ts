import type { PlanInput } from "../../plan.ts";
import { at, minutes } from "../clock.ts";
import type { EvaInput, SuitInput } from "../parts.ts";

/**
 * Two suits of the 8-hour class. Packs that flew in that class held 11.5 lb of feed water, a 390 Wh battery and
 * 3.12 lb of lithium hydroxide (times 0.919 kg/kg, times 0.8 in use: 1.04 kg of CO2; 0.90 is planned with here).
 * Usable oxygen and the reserves are project assumptions.
 *
 * Leak, purge and absorbent heat are the defaults, nominal ones: 0.018 kg of oxygen an hour and 35 g of purge, and the water that
 * the absorbent makes condenses in the pack.
 *
 * At 50 W of work and with 10 % kept back the battery lasts 7 h 1 min: it comes close to binding the second outing as its
 * 7 hours do. Drinking water lasts 7 h 17 min at 0.24 kg an hour. Cooling takes off 400 W, so that only the heaviest digging
 * and hauling stores heat.
 *
 * Emergency oxygen is 39 min, not the published 30: the far lip is 1586 m away in a straight line and 1.74 km on
 * foot round the crater, 33.4 min at 0.9 m/s on the level, and 3 min must be left at the lander.
 */
const pack = {
  massKg: 83,
  oxygenKg: 0.84,
  co2Kg: 0.9,
  waterKg: 5.216,
  batteryWh: 390,
  electricalW: 47,
  walkingW: 49,
  workingW: 50,
  coolingW: 400,
  drinkKg: 1.75,
  emergencyOxygenS: minutes(39),
  reserve: { oxygen: 0.12, co2: 0.12, water: 0.1, battery: 0.1 },
} as const;

export const demoSuits: SuitInput[] = [
  { id: "suit-1", name: "Suit 1", ...pack },
  { id: "suit-2", name: "Suit 2", ...pack, massKg: 85 },
];

export const demoCrew: PlanInput["crew"] = [
  {
    id: "ev1",
    name: "EV1",
    bodyMassKg: 74,
    workRateFactor: 0.96,
    qualifications: ["hot-work", "field-geology"],
    suit: "suit-1",
  },
  {
    id: "ev2",
    name: "EV2",
    bodyMassKg: 81,
    workRateFactor: 1.04,
    qualifications: ["drilling", "instrument-setting"],
    suit: "suit-2",
  },
];

export const demoEvas: EvaInput[] = [
  {
    id: "eva-1",
    name: "EVA 1",
    crew: ["ev1", "ev2"],
    earliestEgressS: at(1, 20),
    latestIngressS: at(8, 0),
    longestS: at(6, 30),
    egressWorkS: minutes(18),
    ingressWorkS: minutes(22),
  },
  {
    id: "eva-2",
    name: "EVA 2",
    crew: ["ev1", "ev2"],
    earliestEgressS: at(13, 45),
    latestIngressS: at(21, 0),
    longestS: at(7, 0),
    egressWorkS: minutes(15),
    ingressWorkS: minutes(25),
  },
];
