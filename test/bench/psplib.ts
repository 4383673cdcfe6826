import { type Plan, parse } from "../../src/plan/index.ts";
import type { PlanInput } from "../../src/plan/plan.ts";

/** An activity of a public instance: length, demand by resource, and lags from its start to others' starts. */
export interface Activity {
  readonly length: number;
  readonly demand: readonly number[];
  readonly lags: readonly { readonly to: number; readonly least: number }[];
}

export interface Instance {
  readonly capacities: readonly number[];
  readonly activities: readonly Activity[];
}

/** A project of the single-mode format of Kolisch & Sprecher 1997 (`.sm`). */
export function readSm(text: string): Instance {
  const lines = text.split(/\r?\n/);
  const after = (title: string, skip: number): number =>
    lines.findIndex((line) => line.startsWith(title)) + skip;
  const count = Number(/jobs \(incl[^:]*:\s*(\d+)/.exec(text)?.[1]);
  const precedence = after("PRECEDENCE RELATIONS", 2);
  const requests = after("REQUESTS/DURATIONS", 3);
  const capacities = numbers(lines[after("RESOURCEAVAILABILITIES", 2)]!);
  const activities = Array.from({ length: count }, (_, a): Activity => {
    const [, , length = 0, ...demand] = numbers(lines[requests + a]!);
    const followers = numbers(lines[precedence + a]!).slice(3);
    return { length, demand, lags: followers.map((job) => ({ to: job - 1, least: length })) };
  });
  return { capacities, activities };
}

/** A project with least and greatest lags in the format of ProGen/max (Schwindt 1996, `.SCH`). */
export function readSch(text: string): Instance {
  const lines = text.split(/\r?\n/).filter((line) => line.trim() !== "");
  const [real = 0] = numbers(lines[0]!);
  const count = real + 2;
  const capacities = numbers(lines[1 + 2 * count]!);
  const activities = Array.from({ length: count }, (_, a): Activity => {
    const [, , successors = 0, ...rest] = numbers(lines[1 + a]!.replaceAll(/[[\]]/g, " "));
    const [, , length = 0, ...demand] = numbers(lines[1 + count + a]!);
    const lags = Array.from({ length: successors }, (_, k) => ({
      to: rest[k]!,
      least: rest[successors + k]!,
    }));
    return { length, demand, lags };
  });
  return { capacities, activities };
}

/** A job shop of (machine, time) pairs, one line a job; every machine is an equipment of which there is one. */
export function readJobShop(text: string): Instance {
  const rows = text
    .split(/\r?\n/)
    .filter((line) => line.trim() !== "" && !line.startsWith("#"))
    .map(numbers);
  const [jobs = 0, machines = 0] = rows[0]!;
  const activities = rows.slice(1, 1 + jobs).flatMap((row, job) =>
    Array.from({ length: machines }, (_, k): Activity => {
      const a = job * machines + k;
      const length = row[2 * k + 1]!;
      return {
        length,
        demand: Array.from({ length: machines }, (_, machine) => (machine === row[2 * k] ? 1 : 0)),
        lags: k + 1 < machines ? [{ to: a + 1, least: length }] : [],
      };
    }),
  );
  return { capacities: Array.from({ length: machines }, () => 1), activities };
}

/** The instance as a plan of remote tasks, one second a unit of time. Throws where the product refuses it. */
export function planOf({ capacities, activities }: Instance, title: string): Plan {
  const name = (a: number): string => `task-${a}`;
  // Long enough for any schedule: one activity after the other, every lag waited for.
  const lengthS = activities.reduce(
    (sum, { length, lags }) => sum + Math.max(length, ...lags.map(({ least }) => least), 0),
    1,
  );
  const input: PlanInput = {
    format: "lopeline-plan",
    version: 3,
    title,
    body: { ephemeris: "none" },
    site: {
      name: "Open ground",
      latDeg: 0,
      lonDeg: 0,
      places: [{ id: "lander", name: "Lander", kind: "lander", eastM: 0, northM: 0 }],
    },
    stay: { touchdownUtc: "2031-01-01T00:00:00Z", lengthS },
    crew: [],
    suits: [],
    evas: [],
    equipment: capacities.map((count, r) => ({ id: `resource-${r}`, name: `Resource ${r + 1}`, count })),
    tasks: activities.map(({ length, demand }, a) => ({
      id: name(a),
      name: `Task ${a}`,
      kind: "upkeep" as const,
      duration: { likelyS: length },
      crew: { count: 0 },
      must: true,
      equipment: demand.flatMap((count, r) => (count > 0 ? [{ equipment: `resource-${r}`, count }] : [])),
    })),
    rules: { startGridS: 1 },
    links: activities.flatMap(({ lags }, a) =>
      lags.map(({ to, least }, k) => linkOf(`lag-${a}-${k}`, name(a), name(to), least)),
    ),
  };
  const outcome = parse(input);
  if (!outcome.ok)
    throw new Error(outcome.error.map(({ path, message }) => `${path}: ${message}`).join("\n"));
  return outcome.value;
}

/** A lag below zero from a to b says that a starts at most so much after b. */
function linkOf(id: string, a: string, b: string, least: number): NonNullable<PlanInput["links"]>[number] {
  const ends = (from: string, to: string) => ({
    id,
    type: "lag" as const,
    from: { task: from, end: "start" as const },
    to: { task: to, end: "start" as const },
  });
  return least < 0 ? { ...ends(b, a), greatestS: -least } : { ...ends(a, b), leastS: least };
}

function numbers(line: string): number[] {
  return line
    .trim()
    .split(/\s+/)
    .map(Number)
    .filter((value) => Number.isFinite(value));
}
