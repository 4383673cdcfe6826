import { cautionsOf, stepsOf } from "../plan/lines.ts";
import { parse, type Plan } from "../../src/plan/index.ts";
import type { PlanInput } from "../../src/plan/plan.ts";

type TaskInput = PlanInput["tasks"][number];
type Placement = { task: string; eva: string | null; crew: string[]; startS: number };

const minutes = (count: number): number => count * 60;

/** A level site: straight lines, so ways are metres over speed and can be worked out by hand in the tests. */
const base = {
  format: "lopeline-plan",
  version: 3,
  title: "Rehearsal plan, Quarry Flat",
  body: { ephemeris: "none" },
  site: {
    name: "Quarry Flat",
    latDeg: 20,
    lonDeg: 30,
    places: [
      { id: "lander", name: "Lander", kind: "lander", eastM: 0, northM: 0 },
      { id: "pad", name: "Instrument pad", kind: "deployment", eastM: 0, northM: 120 },
      { id: "rim", name: "North rim", kind: "station", eastM: 0, northM: 480 },
      { id: "boulder", name: "Split boulder", kind: "station", eastM: 300, northM: 480 },
    ],
  },
  stay: {
    touchdownUtc: "2031-04-05T06:00:00Z",
    lengthS: minutes(22 * 60 + 30),
    blocks: [
      { id: "sleep", name: "Sleep", kind: "sleep", startS: minutes(570), endS: minutes(900) },
      { id: "meal", name: "Meal", kind: "meal", startS: minutes(510), endS: minutes(550) },
    ],
    relayPasses: [
      { id: "pass-1", name: "Pass 1", startS: minutes(150), endS: minutes(260) },
      { id: "pass-2", name: "Pass 2", startS: minutes(700), endS: minutes(820) },
      { id: "pass-3", name: "Pass 3", startS: minutes(1010), endS: minutes(1120) },
    ],
  },
  crew: [
    { id: "ev1", name: "EV1", bodyMassKg: 78, suit: "suit-1" },
    { id: "ev2", name: "EV2", bodyMassKg: 70, suit: "suit-2" },
  ],
  suits: [suit("suit-1", 1800), suit("suit-2", 1830)],
  evas: [eva("eva-1", "EVA 1", 60, 540), eva("eva-2", "EVA 2", 930, 1320)],
  equipment: [
    { id: "drill", name: "Drill", count: 1 },
    { id: "tube", name: "Core tube", count: 4 },
  ],
  containers: [{ id: "box-a", name: "Box A", emptyMassKg: 6.7, capacityKg: 20, volumeL: 15 }],
  rules: { walkback: { speedMs: 1 } },
} as const;

function suit(id: string, emergencyOxygenS: number) {
  return {
    id,
    name: `Suit of ${id}`,
    massKg: 82,
    oxygenKg: 0.9,
    co2Kg: 1.1,
    waterKg: 6,
    batteryWh: 900,
    leakKgH: 0.005,
    purgeKg: 0,
    heatFrom: "given" as const,
    absorbentKjKg: 2030,
    emergencyOxygenS,
  };
}

function eva(id: string, name: string, earliest: number, latest: number) {
  return {
    id,
    name,
    crew: ["ev1", "ev2"],
    earliestEgressS: minutes(earliest),
    latestIngressS: minutes(latest),
    longestS: minutes(420),
    egressWorkS: minutes(20),
    ingressWorkS: minutes(25),
  };
}

/** A task with its defaults; give what differs. */
export function taskOf(id: string, more: Partial<TaskInput> = {}): TaskInput {
  return {
    id,
    name: id,
    kind: "sampling",
    place: "rim",
    duration: { likelyS: minutes(20) },
    worth: 10,
    ...more,
  };
}

/** A parsed plan of the tasks and placements given; throws with the faults when it is not sound. */
export function planOf(
  tasks: readonly TaskInput[],
  placements: readonly Placement[],
  more: Partial<PlanInput> = {},
): Plan {
  const read = parse({ ...base, tasks, schedule: { placements }, ...more });
  if (!read.ok) throw new Error(JSON.stringify(read.error));
  return read.value;
}

const both = ["ev1", "ev2"];

/** Two EVAs, two crew, nine tasks of every kind, all but one placed; no breach but for what a test adds. */
export function samplePlan(more: Partial<PlanInput> = {}): Plan {
  return planOf(
    [
      taskOf("quick-sample", {
        name: "Quick first sample",
        place: "lander",
        must: true,
        duration: { likelyS: minutes(10) },
        sample: { container: "box-a", massKg: 0.8, volumeL: 0.5 },
        steps: stepsOf(
          "Scoop one bag of loose soil beside the ladder",
          "Bag into suit pocket",
          "Report bag number",
        ),
      }),
      taskOf("carry-unit", {
        name: "Carry the seismic unit to the pad",
        kind: "deployment",
        place: "lander",
        endPlace: "pad",
        walkM: 130,
        must: true,
        effort: "deployment",
        crew: { count: 2 },
        massOutKg: 21.25,
        cautions: cautionsOf("Unit is top-heavy: both hands on the bar while walking"),
        steps: stepsOf(
          "Lift together on EV1's word",
          "Walk in step to the pad",
          "Set down, feet out, level bubble up",
        ),
      }),
      taskOf("fuel-unit", {
        name: "Fuel the power unit",
        kind: "deployment",
        place: "pad",
        must: true,
        cautions: cautionsOf(
          "Capsule surface is hot enough to melt the outer glove: touch it only with the long tool, never by hand",
          "Keep the tool's hot end pointed away from both suits and out of the partner's path at all times",
          "If the capsule binds in the cask, stop and report before any second try",
        ),
        equipment: [{ equipment: "drill" }],
        steps: stepsOf(
          "Tilt the cask, remove the dome",
          "Engage the tool, three clicks, pull test",
          "Draw the capsule straight out",
          "Walk around the unit on the up-sun side",
          "Insert the capsule to the stop",
          "Release the tool, report the time",
          "Stow the tool hot end down, 3 m clear of the unit",
        ),
      }),
      taskOf("antenna", {
        name: "Point the antenna and switch on",
        kind: "deployment",
        place: "pad",
        relay: true,
        windows: [{ startS: minutes(140), endS: minutes(240) }],
        duration: { likelyS: minutes(15) },
        steps: stepsOf(
          "Set azimuth ring",
          "Set elevation ring",
          "Shade off, switch to 1",
          "Wait for signal report",
        ),
      }),
      taskOf("rim-survey", {
        name: "Rim survey",
        kind: "survey",
        place: "rim",
        endPlace: "boulder",
        crew: { count: 2 },
        walkM: 340,
        duration: { likelyS: minutes(30) },
        steps: stepsOf("Panorama at the start", "Note every change of soil tone", "Panorama at the boulder"),
      }),
      taskOf("core", {
        name: "Double core tube",
        place: "boulder",
        crew: { count: 1 },
        equipment: [{ equipment: "drill" }, { equipment: "tube", count: 2 }],
        sample: { container: "box-a", massKg: 1.64, volumeL: 1.2 },
        steps: stepsOf(
          "Choose ground free of cobbles",
          "Drive to two marks",
          "Cap, stow, report tube numbers",
        ),
      }),
      taskOf("rake", {
        name: "Rake sample",
        place: "boulder",
        sample: { container: "box-a", massKg: 2, volumeL: 1.5 },
      }),
      taskOf("trench", {
        name: "Trench and sealed sample",
        place: "rim",
        crew: { count: 2 },
        duration: { likelyS: minutes(40) },
        sample: { container: "box-a", massKg: 1.1, volumeL: 0.7 },
        steps: stepsOf(
          "Dig across the tone boundary",
          "Photograph each wall",
          "Fill and seal the can at once",
        ),
      }),
      taskOf("switch-remote", {
        name: "Switch on from the ground",
        kind: "upkeep",
        crew: { count: 0 },
        duration: { likelyS: minutes(10) },
      }),
      taskOf("late-panorama", { name: "Late panorama", kind: "survey", worth: 3 }),
    ],
    [
      { task: "quick-sample", eva: "eva-1", crew: ["ev1"], startS: minutes(85) },
      { task: "carry-unit", eva: "eva-1", crew: both, startS: minutes(96) },
      { task: "fuel-unit", eva: "eva-1", crew: ["ev1"], startS: minutes(118) },
      { task: "antenna", eva: "eva-1", crew: ["ev2"], startS: minutes(160) },
      { task: "rim-survey", eva: "eva-1", crew: both, startS: minutes(185) + 15 },
      { task: "core", eva: "eva-1", crew: ["ev2"], startS: minutes(218) },
      { task: "rake", eva: "eva-1", crew: ["ev1"], startS: minutes(218) },
      { task: "trench", eva: "eva-2", crew: both, startS: minutes(985) },
      { task: "switch-remote", eva: null, crew: [], startS: minutes(300) },
    ],
    more,
  );
}

/** One EVA of fourteen tasks for EV1 with names as long as the schema allows, many steps, and no partner tasks. */
export function crowdedPlan(): Plan {
  const tasks = Array.from({ length: 14 }, (_, i) =>
    taskOf(`long-${i + 1}`, {
      name: `${i + 1}: documented sample of the layered ejecta block on the eastern flank below the bright rim boundary`.slice(
        0,
        120,
      ),
      place: i % 2 === 0 ? "rim" : "boulder",
      cautions: cautionsOf(
        ...(i === 3 ? Array.from({ length: 12 }, () => "Loose ground ".repeat(9).trim()) : []),
      ),
      steps: stepsOf(
        ...Array.from(
          { length: i === 5 ? 60 : 4 },
          (_, k) =>
            `Step ${k + 1}: photograph before, sample, photograph after, note the bag number and report it`,
        ),
      ),
      duration: { likelyS: minutes(15) + i },
    }),
  );
  return planOf(
    tasks,
    tasks.map((task, i) => ({
      task: task.id,
      eva: "eva-1",
      crew: ["ev1"],
      startS: minutes(100 + 24 * i) + 7 * i,
    })),
  );
}
