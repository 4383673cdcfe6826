import { parse, type Plan } from "../../src/plan/index.ts";
import type { PlanInput } from "../../src/plan/plan.ts";

/** A point of an instance; the first of a list is where every tour begins and ends. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** What an orienteering instance says beside its points. */
interface FlatDay {
  readonly title: string;
  readonly points: readonly Point[];
  /** Seconds of the plan for one unit of the instance: distances are cut to one second. */
  readonly unit: number;
  /** By when every tour ends, s. */
  readonly limitS: number;
  readonly crew: readonly { readonly id: string; readonly qualifications?: readonly string[] }[];
  readonly tasks: readonly PlanInput["tasks"][number][];
  readonly groups?: PlanInput["groups"];
  readonly containers?: PlanInput["containers"];
}

/** The id of the place at the point with this number. */
export function placeAt(i: number): string {
  return `p${i}`;
}

/**
 * A day on flat ground as a plan: a crew member for each tour on one EVA, travel given as legs, and no other rule that binds. Throws where
 * the product refuses it.
 */
export function flatDay({ title, points, unit, limitS, crew, tasks, groups, containers }: FlatDay): Plan {
  const legs = points.flatMap((a, i) =>
    points.slice(i + 1).map((b, k) => {
      const durationS = Math.floor(Math.hypot(a.x - b.x, a.y - b.y) * unit + 1e-9);
      return { from: placeAt(i), to: placeAt(i + k + 1), distanceM: durationS, durationS };
    }),
  );
  const warning = { level: "warning" as const };
  const read = parse({
    format: "lopeline-plan",
    version: 3,
    title,
    site: {
      name: "flat",
      latDeg: 0,
      lonDeg: 0,
      places: points.map(({ x, y }, i) => ({
        id: placeAt(i),
        name: placeAt(i),
        kind: i === 0 ? "lander" : "station",
        eastM: x,
        northM: y,
      })),
      legs,
    },
    stay: { touchdownUtc: "2030-01-01T00:00:00Z", lengthS: limitS },
    crew: crew.map(({ id, qualifications = [] }) => ({
      id,
      name: id,
      bodyMassKg: 80,
      suit: id,
      qualifications,
    })),
    suits: crew.map(({ id }) => ({
      id,
      name: id,
      massKg: 100,
      oxygenKg: 50,
      co2Kg: 50,
      waterKg: 100,
      batteryWh: 100_000,
      // Physics that no warning lifts (S9): home from anywhere, however far.
      emergencyOxygenS: limitS,
    })),
    evas: [
      {
        id: "day",
        name: "day",
        crew: crew.map(({ id }) => id),
        earliestEgressS: 0,
        latestIngressS: limitS,
        longestS: limitS,
        egressWorkS: 0,
        ingressWorkS: 0,
      },
    ],
    tasks,
    groups,
    containers,
    rules: {
      startGridS: 1,
      reserve: warning,
      walkback: warning,
      separation: warning,
      distance: warning,
      blast: warning,
      work: warning,
      duty: warning,
      recharge: warning,
      returnMass: warning,
    },
  });
  if (!read.ok)
    throw new Error(`${title}: ${read.error.map((fault) => `${fault.path} ${fault.message}`).join("; ")}`);
  return read.value;
}

/** The numbers of a text, a row a line; lines without any, or with a single 0, are left out. */
export function numberRows(text: string): readonly (readonly number[])[] {
  return text
    .split("\n")
    .map((line) => line.trim().split(/\s+/).map(Number))
    .filter((numbers) => numbers.length > 1 || numbers[0] !== 0);
}
