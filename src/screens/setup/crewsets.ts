import { duration, instant } from "../../kernel/index.ts";
import type { Plan } from "../../plan/index.ts";
import { blankPlan } from "../../session/index.ts";

/** Whole crews to begin with: who is there, in equal suits, and the EVAs they go out on. */

export interface CrewSet {
  readonly id: string;
  readonly name: string;
  /** Crew members by EVA, numbered from 0, and when each EVA may begin and must be over, hours from touchdown. */
  readonly evas: readonly {
    readonly crew: readonly number[];
    readonly fromH: number;
    readonly toH: number;
  }[];
}

/**
 * Common practice, no source: the first egress two hours after touchdown, EVAs of at most seven hours, five hours for
 * recharge between two of the same crew.
 */
export const CREW_SETS: readonly CrewSet[] = [
  { id: "pair", name: "Two crew, one EVA", evas: [{ crew: [0, 1], fromH: 2, toH: 10 }] },
  {
    id: "pair-twice",
    name: "Two crew, two EVAs",
    evas: [
      { crew: [0, 1], fromH: 2, toH: 9 },
      { crew: [0, 1], fromH: 14, toH: 21 },
    ],
  },
  { id: "three", name: "Three crew, one EVA", evas: [{ crew: [0, 1, 2], fromH: 2, toH: 10 }] },
  {
    id: "pairs",
    name: "Four crew in pairs, an EVA each",
    evas: [
      { crew: [0, 1], fromH: 2, toH: 10 },
      { crew: [2, 3], fromH: 11, toH: 19 },
    ],
  },
];

const HOUR_S = 3600;

/** The crew, suits and EVAs of `set` in place of the plan's; suits and body masses are those of an empty plan. */
export function withCrewSet({ evas }: CrewSet): Pick<Plan, "crew" | "suits" | "evas"> {
  const blank = blankPlan(0);
  const [member, suit, eva] = [blank.crew[0]!, blank.suits[0]!, blank.evas[0]!];
  const numbers = [...new Set(evas.flatMap((one) => one.crew))];
  const crewId = (number: number): string => `ev${number + 1}`;
  return {
    crew: numbers.map((number) => ({
      ...member,
      id: crewId(number),
      name: `EV${number + 1}`,
      suit: `suit-${number + 1}`,
    })),
    suits: numbers.map((number) => ({ ...suit, id: `suit-${number + 1}`, name: `Suit ${number + 1}` })),
    evas: evas.map(({ crew, fromH, toH }, k) => ({
      ...eva,
      id: `eva-${k + 1}`,
      name: `EVA ${k + 1}`,
      crew: crew.map(crewId),
      suits: {},
      earliestEgressS: instant(fromH * HOUR_S),
      latestIngressS: instant(toH * HOUR_S),
      longestS: duration(7 * HOUR_S),
    })),
  };
}

/** Why a set cannot take the place of the plan's crew; null when it can. */
export function hinderedSet(plan: Plan, { evas }: CrewSet): string | null {
  const lastH = Math.max(...evas.map((one) => one.toH));
  if (plan.stay.lengthS < lastH * HOUR_S) return `It needs a stay of ${lastH} h.`;
  const placed = [plan.schedule, ...plan.variants.map((one) => one.schedule)].some((schedule) =>
    schedule.placements.some((one) => one.crew.length > 0),
  );
  return placed
    ? "Tasks on the day line, variants counted, have the crew of now: send them to the bench first."
    : null;
}
