import type { CrewRules, Wished } from "../../answers/index.ts";
import { chanceOf } from "../simulate/chance.ts";
import type { Days } from "../simulate/days.ts";
import type { Stage } from "../simulate/stage.ts";
import { countDays } from "./count.ts";
import type { Elite } from "./elites.ts";
import { type Seen, type Wish, valueOf } from "./value.ts";
import type { Schedule } from "../../plan/index.ts";

const CAUTIONS = [0, 0.25, 0.5, 0.75];
/** Of so many schedules the cautions are tried on few days; so many of what is best then are counted on more. */
const SCHEDULES = 8;
const FINALISTS = 5;
/** Asked for beyond the wish here: of days that only just meet it, half do not on others. */
const SPARE = 0.01;

/** Days to choose by, few and more, and to show. */
export interface Chosen {
  readonly few: Days;
  readonly more: Days;
  readonly shown: Days;
}

/** Chooses from `elites` (best first) for `wish`, a little at a time. */
export function* choose(
  stage: Stage,
  elites: readonly Elite[],
  crew: CrewRules,
  wish: Wish,
  days: Chosen,
): Generator<undefined, Wished | null> {
  const cautions = crew.leavesOut ? [...new Set([crew.caution, ...CAUTIONS])] : [crew.caution];
  const aim: Wish = { ...wish, must: Math.min(1, wish.must + SPARE) };
  interface Candidate {
    readonly elite: Elite;
    readonly crew: CrewRules;
    readonly value: number;
  }
  const counted = (elite: Elite, rules: CrewRules, on: Days): Candidate => ({
    elite,
    crew: rules,
    value: valueOf(aim, countDays(stage, elite.schedule, rules, on)),
  });
  const byValue = (a: Candidate, b: Candidate): number => b.value - a.value;
  const all: Candidate[] = [];
  for (const elite of elites.slice(0, SCHEDULES))
    for (const caution of cautions) {
      all.push(counted(elite, { ...crew, caution }, days.few));
      yield;
    }
  const last: Candidate[] = [];
  for (const one of all.sort(byValue).slice(0, FINALISTS)) {
    last.push(counted(one.elite, one.crew, days.more));
    yield;
  }
  const best = last.sort(byValue)[0];
  if (!best) return null;
  const { schedule } = best.elite;
  return wishedOf(
    schedule,
    best.crew.caution,
    wish,
    countDays(stage, schedule, best.crew, days.shown),
    days.shown.count,
  );
}

function wishedOf(schedule: Schedule, caution: number, wish: Wish, seen: Seen, days: number): Wished {
  const { home, must } = wish;
  return {
    schedule,
    caution,
    wish: { home, must },
    outcome: {
      home: chanceOf(Math.round(seen.home * days), days),
      must: chanceOf(Math.round(seen.must * days), days),
      meanWorth: seen.worth,
    },
    days,
    meets: seen.home >= home && seen.must >= must,
  };
}
