import { FORMAT, type PlanInput, VERSION } from "../../plan.ts";
import { at, minutes } from "../clock.ts";
import type { SuitInput } from "../parts.ts";
import { smallLinks, smallTasks } from "./tasks.ts";

const pack: Omit<SuitInput, "id" | "name"> = {
  massKg: 82,
  oxygenKg: 0.4,
  co2Kg: 0.5,
  waterKg: 3.86,
  batteryWh: 279,
  emergencyOxygenS: minutes(30),
};

/**
 * A plan to learn on: eight tasks, one outing of 2 h, everything fits and little is left over.
 *
 * The two of them have 2 x (120 - 25) = 190 min between fixed work; the tasks take 153 of them and the walks about
 * 30. The outing is shorter than the longest stretch of work, so nobody needs a rest.
 */
export function smallPlan(): PlanInput {
  return {
    format: FORMAT,
    version: VERSION,
    title: "Lintel Flat, a first outing",
    notes:
      "Invented plan for learning: no real site, crew, vehicle or mission. For planning and training only.",
    site: {
      name: "Lintel Flat",
      latDeg: 27.24,
      lonDeg: -61.55,
      places: [
        { id: "lander", name: "Lander Wheatear", kind: "lander", eastM: 0, northM: 0 },
        { id: "doorstep", name: "Doorstep", kind: "station", eastM: 58, northM: 20 },
        { id: "flag-rise", name: "Flag Rise", kind: "deployment", eastM: -92, northM: 66, upM: 2 },
        { id: "split-stone", name: "Split Stone", kind: "station", eastM: 190, northM: 140, upM: 3 },
        { id: "low-scarp", name: "Low Scarp", kind: "station", eastM: 290, northM: -60, upM: -4 },
      ],
    },
    stay: {
      touchdownUtc: "2033-04-12T21:40:00Z",
      lengthS: at(6, 0),
      blocks: [
        { id: "donning", name: "Suits on", kind: "other", startS: at(1, 0), endS: at(1, 30) },
        { id: "meal", name: "Meal", kind: "meal", startS: at(4, 15), endS: at(4, 45) },
      ],
      relayPasses: [{ id: "pass-1", name: "Pass 1", startS: at(1, 0), endS: at(4, 0) }],
    },
    crew: [
      { id: "ev1", name: "EV1", bodyMassKg: 70, suit: "suit-1" },
      { id: "ev2", name: "EV2", bodyMassKg: 80, qualifications: ["drilling"], suit: "suit-2" },
    ],
    suits: [
      { id: "suit-1", name: "Suit 1", ...pack },
      { id: "suit-2", name: "Suit 2", ...pack },
    ],
    evas: [
      {
        id: "eva-1",
        name: "EVA 1",
        crew: ["ev1", "ev2"],
        earliestEgressS: at(1, 30),
        latestIngressS: at(4, 0),
        longestS: at(2, 5),
        egressWorkS: minutes(10),
        ingressWorkS: minutes(15),
      },
    ],
    equipment: [{ id: "core-rammer", name: "Core rammer", count: 1 }],
    containers: [{ id: "case", name: "Rock case", emptyMassKg: 6.4, capacityKg: 8, volumeL: 7 }],
    tasks: smallTasks,
    links: smallLinks,
    rules: { returnMass: { greatestKg: 14, source: "The ascent vehicle's limit. Invented." } },
    schedule: { placements: [] },
  };
}
