import { instant } from "../../src/kernel/index.ts";
import { parse, type Plan, type Schedule } from "../../src/plan/index.ts";
import type { PlanInput } from "../../src/plan/plan.ts";

const HOUR = 3600;

/** Three crew members, two EVAs that do not overlap (the second without EV1), six tasks, one of them remote. */
export function fixturePlan(part: Partial<PlanInput> = {}): Plan {
  const read = parse({
    format: "lopeline-plan",
    version: 3,
    title: "Fixture",
    site: {
      name: "Nowhere",
      latDeg: 10,
      lonDeg: 20,
      places: [
        { id: "lander", name: "Lander", kind: "lander", eastM: 0, northM: 0 },
        { id: "rim", name: "Rim", kind: "station", eastM: 400, northM: 0 },
      ],
    },
    stay: {
      touchdownUtc: "2031-04-05T06:07:00Z",
      lengthS: 22 * HOUR,
      relayPasses: [{ id: "pass-1", name: "Pass 1", startS: 3 * HOUR, endS: 4 * HOUR }],
    },
    crew: ["ev1", "ev2", "ev3"].map((id) => ({
      id,
      name: id.toUpperCase(),
      bodyMassKg: 75,
      suit: `suit-${id}`,
    })),
    suits: ["ev1", "ev2", "ev3"].map((id) => ({
      id: `suit-${id}`,
      name: `Suit of ${id.toUpperCase()}`,
      massKg: 90,
      oxygenKg: 1,
      co2Kg: 1,
      waterKg: 5,
      batteryWh: 500,
      emergencyOxygenS: 1800,
    })),
    evas: [
      eva("eva-1", ["ev1", "ev2"], 2 * HOUR, 9 * HOUR),
      eva("eva-2", ["ev2", "ev3"], 14 * HOUR, 20 * HOUR),
    ],
    containers: [{ id: "box", name: "Box", emptyMassKg: 2, capacityKg: 20, volumeL: 20 }],
    tasks: [
      task("sample", 1, 900, { sample: { container: "box", massKg: 1.5 } }),
      task("core", 1, 1800, { sample: { container: "box", massKg: 3 }, must: true }),
      task("station", 2, 3600, { windows: [{ startS: 3 * HOUR, endS: 6 * HOUR }] }),
      task("panorama", 1, 600, { relay: true }),
      task("listen", 0, 1200, {}),
      task("beacon", 0, 1200, {}),
    ],
    // Arithmetic to the second; what the grid does has tests of its own.
    rules: { startGridS: 1 },
    ...part,
  });
  if (!read.ok) throw new Error(JSON.stringify(read.error));
  return read.value;
}

function eva(id: string, crew: string[], earliestEgressS: number, latestIngressS: number) {
  return {
    id,
    name: id.toUpperCase(),
    crew,
    earliestEgressS,
    latestIngressS,
    longestS: 8 * HOUR,
    egressWorkS: 1200,
    ingressWorkS: 1200,
  };
}

function task(id: string, count: number, likelyS: number, part: object) {
  return {
    id,
    name: id[0]!.toUpperCase() + id.slice(1),
    kind: "sampling" as const,
    ...(count > 0 ? { place: "rim" } : {}),
    duration: { likelyS },
    crew: { count },
    worth: 10,
    ...part,
  };
}

/** Four of the six tasks placed. */
export function fixtureSchedule(): Schedule {
  return {
    placements: [
      { task: "sample", eva: "eva-1", crew: ["ev1"], startS: instant(3 * HOUR) },
      { task: "station", eva: "eva-1", crew: ["ev1", "ev2"], startS: instant(4 * HOUR) },
      { task: "core", eva: "eva-2", crew: ["ev3"], startS: instant(15 * HOUR) },
      { task: "listen", eva: null, crew: [], startS: instant(5 * HOUR) },
    ],
  };
}
