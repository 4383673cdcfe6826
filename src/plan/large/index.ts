import { random as stream } from "../../kernel/index.ts";
import { FORMAT, type PlanInput, VERSION } from "../plan.ts";
import { at, minutes } from "./clock.ts";
import type { EvaInput } from "./parts.ts";
import { districtsOf } from "./ground.ts";
import { linksOf } from "./links.ts";
import { tasksOf } from "./tasks.ts";

const PAIRS = [
  ["ev1", "ev2"],
  ["ev3", "ev4"],
] as const;

/** Three outings a pair; the second pair goes out an hour after the first. */
const largeEvas: EvaInput[] = [at(3, 0), at(26, 0), at(49, 0)].flatMap((fromS, day) =>
  PAIRS.map((pair, who): EvaInput => {
    const earliestEgressS = fromS + who * at(1, 0);
    return {
      id: `eva-${day * 2 + who + 1}`,
      name: `EVA ${day * 2 + who + 1}`,
      crew: [...pair],
      earliestEgressS,
      latestIngressS: earliestEgressS + at(7, 30),
      longestS: at(7, 0),
      egressWorkS: minutes(15),
      ingressWorkS: minutes(25),
    };
  }),
);

const restDays = [at(16, 0), at(39, 0)].flatMap((fromS, day) => [
  { id: `supper-${day + 1}`, name: "Supper", kind: "meal" as const, startS: fromS - at(1, 0), endS: fromS },
  { id: `sleep-${day + 1}`, name: "Sleep", kind: "sleep" as const, startS: fromS, endS: fromS + at(7, 0) },
]);

/**
 * A plan for load, not for flying: 300 tasks, four crew members, six outings by pairs, a stay of 60 h, which is
 * longer than a day on purpose. The same seed gives the same plan.
 */
export function largePlan(seed = 1): PlanInput {
  const random = stream(seed);
  const districts = districtsOf(random.split());
  const tasks = tasksOf(random.split(), 300, districts, largeEvas);
  return {
    format: FORMAT,
    version: VERSION,
    title: "Sallow Plain, 300 tasks for load",
    notes: `Made from seed ${seed} to try the program under load; not a stay that anybody would fly.`,
    site: {
      name: "Sallow Plain",
      latDeg: 63.42,
      lonDeg: -18.15,
      places: [
        { id: "lander", name: "Lander Bulrush", kind: "lander", eastM: 0, northM: 0 },
        ...districts.flatMap((district) => district.places),
      ],
    },
    stay: {
      touchdownUtc: "2036-05-05T21:50:00Z",
      lengthS: at(60, 0),
      blocks: restDays,
      relayPasses: Array.from({ length: 24 }, (_, orbit) => ({
        id: `pass-${orbit + 1}`,
        name: `Pass ${orbit + 1}`,
        startS: at(0, 40) + orbit * at(2, 25),
        endS: at(0, 40) + orbit * at(2, 25) + at(1, 20),
      })),
    },
    crew: PAIRS.flat().map((id, i) => ({
      id,
      name: id.toUpperCase(),
      bodyMassKg: 68 + 5 * i,
      workRateFactor: (95 + 4 * i) / 100,
      qualifications: [i % 2 === 0 ? "field-geology" : "drilling"],
      suit: `suit-${i + 1}`,
    })),
    suits: largeSuits(),
    evas: largeEvas,
    equipment: [
      { id: "drill", name: "Rotary drill", count: 2 },
      { id: "core-rammer", name: "Core rammer", count: 2 },
      { id: "rake", name: "Soil rake", count: 2 },
      { id: "camera", name: "Hand camera", count: 3 },
      { id: "sounder", name: "Walking sounder", count: 1 },
    ],
    containers: ["a", "b", "c", "d"].map((letter) => ({
      id: `case-${letter}`,
      name: `Rock case ${letter.toUpperCase()}`,
      emptyMassKg: 6.4,
      capacityKg: 22,
      volumeL: 24,
    })),
    tasks,
    links: linksOf(random.split(), 150, tasks),
    rules: { returnMass: { greatestKg: 110, source: "For load. Invented." } },
    schedule: { placements: [] },
  };
}

/** A suit of their own for each, all alike. */
function largeSuits(): PlanInput["suits"] {
  return PAIRS.flat().map((_, i) => ({
    id: `suit-${i + 1}`,
    name: `Suit ${i + 1}`,
    massKg: 84,
    oxygenKg: 0.88,
    co2Kg: 0.95,
    waterKg: 5.6,
    batteryWh: 400,
    emergencyOxygenS: minutes(40),
    reserve: { oxygen: 0.12, co2: 0.12, water: 0.1, battery: 0.1 },
  }));
}
