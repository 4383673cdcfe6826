import type { Random } from "../../kernel/index.ts";
import { minutes } from "./clock.ts";
import type { EvaInput, TaskInput } from "./parts.ts";
import type { District } from "./ground.ts";

const DEEDS = [
  { kind: "sampling", name: "Documented samples", effort: "geology" },
  { kind: "sampling", name: "Rake sample", effort: "geology", tool: "rake" },
  { kind: "sampling", name: "Core", effort: "geology", tool: "core-rammer" },
  { kind: "sampling", name: "Drill core", effort: "geology", tool: "drill" },
  { kind: "survey", name: "Panorama", effort: "overall", tool: "camera" },
  { kind: "survey", name: "Sounder line", effort: "overall", tool: "sounder" },
  { kind: "deployment", name: "Set a marker unit", effort: "deployment" },
  { kind: "upkeep", name: "Dust off and inspect", effort: "overall" },
] as const;

const STEPS: Readonly<Record<TaskInput["kind"], readonly string[]>> = {
  sampling: [
    "Scale rod, 2 frames across the sun",
    "Take the sample, seal the bag",
    "Call the bag number and the spot",
  ],
  survey: [
    "Stand on the flag, call bearing",
    "Take 12 readings, 30 deg apart",
    "Call the count and the last reading",
  ],
  deployment: [
    "Tramp the pad flat, 80 cm across",
    "Bubble inside the inner ring",
    "Switch on, check: green lamp",
  ],
  upkeep: ["Brush the top face, 10 strokes", "Check 4 bolts by hand", "Call what is loose"],
};

const QUALIFICATIONS = ["drilling", "field-geology"];
const SAMPLE_CASES = ["case-a", "case-b", "case-c", "case-d"];

/** One of `list`, evenly. */
export function oneOf<T>(random: Random, list: readonly T[]): T {
  return list[random.below(list.length)]!;
}

/** `count` tasks, each in a district of its own choosing; about one in ten is a must-do of a near district. */
export function tasksOf(
  random: Random,
  count: number,
  districts: readonly District[],
  evas: readonly EvaInput[],
): TaskInput[] {
  return Array.from({ length: count }, (_, i): TaskInput => {
    // The first 30 go to the four nearest districts and are must-do.
    const must = i < Math.floor(count / 10);
    const district = must ? districts[i % 4]! : oneOf(random, districts);
    const deed = oneOf(random, DEEDS);
    const instrument = deed.kind === "deployment";
    const place = instrument ? district.places[0]! : oneOf(random, district.places);
    const likely = 8 + random.below(23);
    const two = random.next() < 0.25;
    const windowed = !must && random.next() < 0.15;
    const lit = !must && random.next() < 0.06;
    const relayed = !must && random.next() < 0.06;
    const moves = !must && deed.kind === "survey" && random.next() < 0.4;
    return {
      id: `task-${String(i + 1).padStart(3, "0")}`,
      name: `${deed.name} at ${place.name}`,
      kind: deed.kind,
      place: place.id,
      ...(moves ? movingPart(random, district, place.id) : {}),
      duration: {
        lowS: minutes(Math.floor(likely * 0.75)),
        likelyS: minutes(likely),
        highS: minutes(Math.ceil(likely * 1.45)),
      },
      crew: {
        count: two ? 2 : 1,
        ...(random.next() < 0.15 ? { qualification: oneOf(random, QUALIFICATIONS) } : {}),
      },
      effort: deed.effort,
      worth: 5 * (1 + random.below(20)),
      must,
      ...(windowed ? { windows: [halfOf(random, oneOf(random, evas))] } : {}),
      ...(lit ? { sun: sunOf(random) } : {}),
      relay: relayed,
      equipment: "tool" in deed ? [{ equipment: deed.tool }] : [],
      instrument,
      ...(deed.kind === "sampling"
        ? {
            sample: sampleOf(random),
          }
        : {}),
      cautions: [
        instrument
          ? { class: "caution", text: "Cables: walk round them." }
          : { class: "warning", text: "Rocks: look, then step." },
      ],
      steps: STEPS[deed.kind].map((text) => ({ text })),
    };
  });
}

/** One of two stretches of the sun's elevation. */
function sunOf(random: Random): NonNullable<TaskInput["sun"]> {
  return random.next() < 0.5 ? { leastDeg: 4, greatestDeg: 9 } : { leastDeg: 9, greatestDeg: 18 };
}

function sampleOf(random: Random): NonNullable<TaskInput["sample"]> {
  return {
    container: oneOf(random, SAMPLE_CASES),
    massKg: Math.round(random.between(3, 16)) / 10,
    volumeL: Math.round(random.between(2, 12)) / 10,
  };
}

/** A traverse inside the district: it ends at another of its places. */
function movingPart(random: Random, district: District, from: string): { endPlace: string; walkM: number } {
  const to = oneOf(
    random,
    district.places.filter((place) => place.id !== from),
  );
  return { endPlace: to.id, walkM: 60 + random.below(240) };
}

/** The first or the second half of an outing's time. */
function halfOf(random: Random, eva: EvaInput): { startS: number; endS: number } {
  const middleS = Math.round((eva.earliestEgressS + eva.latestIngressS) / 2);
  return random.next() < 0.5
    ? { startS: eva.earliestEgressS, endS: middleS }
    : { startS: middleS, endS: eva.latestIngressS };
}
