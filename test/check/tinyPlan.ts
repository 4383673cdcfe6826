import { parse, type Plan } from "../../src/plan/index.ts";
import type { PlanInput } from "../../src/plan/plan.ts";

/**
 * A flat site for tests whose arithmetic is done in the head: everybody walks and walks back at 1 m/s straight on
 * (detour 1) at 400 W, so a way of 300 m takes 300 s. Two crew members, airlock work 600 s at both ends, stocks and limits so
 * wide that nothing is broken or tight until a test narrows them.
 *
 * Places: `lander` (0, 0), `a` (300, 0), `b` (600, 0), `c` (0, 400): a-b 300 m, a-c 500 m.
 */
export type TaskInput = PlanInput["tasks"][number];
export type PlacementInput = NonNullable<NonNullable<PlanInput["schedule"]>["placements"]>[number];
type SuitInput = PlanInput["suits"][number];
export type EvaInput = PlanInput["evas"][number];
type PlaceInput = PlanInput["site"]["places"][number];

/** What a test wants otherwise than the tiny plan has it. */
export interface TinyParts {
  readonly tasks?: TaskInput[];
  readonly placements?: PlacementInput[];
  readonly suit?: Partial<SuitInput>;
  readonly crew?: PlanInput["crew"];
  readonly evas?: EvaInput[];
  readonly places?: PlaceInput[];
  readonly site?: Partial<PlanInput["site"]>;
  readonly stay?: Partial<PlanInput["stay"]>;
  readonly rules?: PlanInput["rules"];
  readonly more?: Partial<PlanInput>;
}

/** A task at `place` (0: no crew and no place) for one crew member, 600 s of geology. */
export function task(id: string, place: string | null, more: Partial<TaskInput> = {}): TaskInput {
  return {
    id,
    name: id,
    kind: "survey",
    duration: { likelyS: 600 },
    ...(place === null ? { crew: { count: 0 } } : { place }),
    ...more,
  };
}

/** `task` from `startS` by `crew` on `eva`. */
export function at(
  taskId: string,
  startS: number,
  crew: string[] = ["ev1"],
  eva: string | null = "eva-1",
): PlacementInput {
  return { task: taskId, startS, crew, eva };
}

/** Remote work from `startS`: no EVA, no crew. */
export function remote(taskId: string, startS: number): PlacementInput {
  return at(taskId, startS, [], null);
}

/** An EVA of both crew members, any time in the first ten hours, airlock work 600 s at both ends. */
export function eva(id: string, more: Partial<EvaInput> = {}): EvaInput {
  return {
    id,
    name: id,
    crew: ["ev1", "ev2"],
    earliestEgressS: 0,
    latestIngressS: 36_000,
    longestS: 36_000,
    egressWorkS: 600,
    ingressWorkS: 600,
    ...more,
  };
}

/** A place of the site. */
export function place(id: string, eastM: number, northM: number): PlaceInput {
  return { id, name: id, kind: id === "lander" ? "lander" : "station", eastM, northM };
}

const WIDE_SUIT: SuitInput = {
  id: "suit",
  name: "suit",
  massKg: 80,
  oxygenKg: 40,
  co2Kg: 40,
  waterKg: 80,
  batteryWh: 90_000,
  leakKgH: 0.005,
  purgeKg: 0,
  electricalW: 50,
  heatFrom: "given",
  absorbentKjKg: 2030,
  emergencyOxygenS: 20_000,
};

/** The tiny plan with `parts` in place of its own, through the only door, `parse`. */
export function tinyPlan(parts: TinyParts = {}): Plan {
  return parsed(tinyInput(parts));
}

/** The same as outside data, for tests that need to spoil it. */
export function tinyInput(parts: TinyParts = {}): PlanInput {
  const { rules } = parts;
  const crew = parts.crew ?? [
    { id: "ev1", name: "EV1", bodyMassKg: 80, suit: "suit" },
    { id: "ev2", name: "EV2", bodyMassKg: 70, suit: "suit" },
  ];
  // Alike, but a suit for each: the second crew member's is `suit-2`.
  const suits = crew.map((_, k) => (k === 0 ? "suit" : `suit-${k + 1}`));
  return {
    format: "lopeline-plan",
    version: 3,
    title: "tiny",
    body: { ephemeris: "none" },
    site: {
      name: "flat",
      latDeg: 0,
      lonDeg: 0,
      places: parts.places ?? [
        place("lander", 0, 0),
        place("a", 300, 0),
        place("b", 600, 0),
        place("c", 0, 400),
      ],
      ...parts.site,
    },
    stay: { touchdownUtc: "2031-04-05T06:07:00Z", lengthS: 72_000, ...parts.stay },
    crew: crew.map((one, k) => (one.suit === "suit" ? { ...one, suit: suits[k]! } : one)),
    suits: suits.map((id) => ({ ...WIDE_SUIT, ...parts.suit, id, name: id })),
    evas: parts.evas ?? [eva("eva-1")],
    tasks: parts.tasks ?? [],
    schedule: { placements: parts.placements ?? [] },
    rules: {
      tightS: 0,
      // Optima are worked out to the second.
      startGridS: 1,
      ...rules,
      walking: { speedMs: 1, metabolicW: 400, rateAtMs: 1, detour: 1, ...rules?.walking },
      walkback: { speedMs: 1, metabolicW: 400, emergencyReserveS: 0, ...rules?.walkback },
      reserve: { tight: 0, ...rules?.reserve },
      separation: { greatestM: 5000, ...rules?.separation },
      distance: { evaM: 50_000, stayM: 100_000, ...rules?.distance },
      work: { longestS: 86_400, ...rules?.work },
      recharge: { leastS: 0, ...rules?.recharge },
      carry: { greatestN: 308, ...rules?.carry },
    },
    ...parts.more,
  };
}

/** `input` as a plan; a fault in it is a fault of the test and is thrown with its path. */
export function parsed(input: PlanInput): Plan {
  const read = parse(input);
  if (read.ok) return read.value;
  throw new Error(read.error.map((fault) => `${fault.path}: ${fault.message}`).join("\n"));
}
