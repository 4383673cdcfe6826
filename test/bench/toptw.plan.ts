import { readFileSync } from "node:fs";
import { basename } from "node:path";
import { parse, type Plan } from "../../src/plan/index.ts";

/**
 * A team-orienteering instance with time windows (Vansteenwegen et al. 2009, Comput Oper Res 36:3281) as a plan: `m` crew
 * members on one EVA, optional one-person tasks with one window each, worth, flat travel given as legs.
 *
 * Distances are Euclidean, cut to one decimal, in the pr family to two; one second of the plan is that last decimal.
 * The route's limit is the closing time of the depot. A window bounds the start, so the plan's ends later by the visit.
 */
export function toptwPlan(path: string, crew: number): Plan {
  const lines = readFileSync(path, "latin1")
    .split("\n")
    .map((line) => line.trim().split(/\s+/).map(Number))
    .filter((numbers) => numbers.length > 1 || numbers[0] !== 0);
  const count = lines[0]![2]!;
  const vertices = lines.slice(2, count + 3);
  const unit = basename(path).startsWith("pr") ? 100 : 10;
  const whole = (value: number): number => Math.round(value * unit);
  const opens = (row: number[]): number => whole(row.at(-2)!);
  const closes = (row: number[]): number => whole(row.at(-1)!);
  const limitS = closes(vertices[0]!);
  const id = (i: number): string => `p${i}`;
  const members = Array.from({ length: crew }, (_, k) => `c${k + 1}`);
  const legs = vertices.flatMap((a, i) =>
    vertices.slice(i + 1).map((b, k) => {
      const metres = Math.hypot(a[1]! - b[1]!, a[2]! - b[2]!);
      const durationS = Math.floor(metres * unit + 1e-9);
      return { from: id(i), to: id(i + k + 1), distanceM: durationS, durationS };
    }),
  );
  const warning = { level: "warning" as const };
  const read = parse({
    format: "lopeline-plan",
    version: 3,
    title: basename(path),
    site: {
      name: "flat",
      latDeg: 0,
      lonDeg: 0,
      places: vertices.map((row, i) => ({
        id: id(i),
        name: id(i),
        kind: i === 0 ? "lander" : "station",
        eastM: row[1]!,
        northM: row[2]!,
      })),
      legs,
    },
    stay: { touchdownUtc: "2030-01-01T00:00:00Z", lengthS: limitS },
    crew: members.map((member) => ({ id: member, name: member, bodyMassKg: 80, suit: member })),
    suits: members.map((member) => ({
      id: member,
      name: member,
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
        crew: members,
        earliestEgressS: 0,
        latestIngressS: limitS,
        longestS: limitS,
        egressWorkS: 0,
        ingressWorkS: 0,
      },
    ],
    tasks: vertices.slice(1).map((row, i) => ({
      id: `t${i + 1}`,
      name: `t${i + 1}`,
      kind: "survey",
      place: id(i + 1),
      duration: { likelyS: whole(row[3]!) },
      worth: row[4]!,
      windows: [{ startS: opens(row), endS: closes(row) + whole(row[3]!) || 1 }],
    })),
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
    throw new Error(`${path}: ${read.error.map((fault) => `${fault.path} ${fault.message}`).join("; ")}`);
  return read.value;
}
