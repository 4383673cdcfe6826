import type { CrewRules, Outcome, Wished } from "../../answers/index.ts";
import { countOf, type Count } from "../simulate/count.ts";
import { outcomeOf } from "../simulate/seen.ts";
import type { Days } from "../simulate/days.ts";
import type { Stage } from "../simulate/stage.ts";
import { beyond } from "./beyond.ts";
import type { Elite } from "./elites.ts";
import { missingOf } from "./missing.ts";
import { CAUTIONS } from "./trial.ts";
import { meetsWish, type Wish, valueOf } from "../simulate/value.ts";

/** The cautions are tried on few days; so many of what is best then are counted on more. */
const FINALISTS = 5;
/** Cautions with which one schedule is counted on more: where nothing is lost on few days, all of them do the same. */
const CREWS = 2;
/** So many others at most are counted on more days where none of those is found to meet the wish. */
const MORE_ASKED = 4;

/** Days to choose by, few and more, and to show: never the same. */
export interface Chosen {
  readonly few: Days;
  readonly more: Days;
  readonly shown: Days;
  /** Every day there is, and not some of them. */
  readonly exact: boolean;
}

type DayCounts = Readonly<Record<"few" | "more" | "shown", { readonly count: number }>>;

/** How many of each are played for one wish, all told, to choose from so many schedules. */
export function daysToChoose({ few, more, shown }: DayCounts, schedules: number): number {
  return schedules * (CAUTIONS.length + 1) * few.count + FINALISTS * more.count + shown.count;
}

/** What was chosen for a wish, counted on the days that are shown, and what it came to on those that it was chosen by. */
export interface Choice {
  readonly day: Wished & { readonly outcome: Outcome };
  readonly chosenBy: Outcome;
}

/** A schedule and a crew, counted on some days. */
interface Candidate {
  readonly elite: Elite;
  readonly crew: CrewRules;
  /** Whether it meets the wish, with what is asked for beyond it. */
  readonly meets: boolean;
  /** Whether it does as it was counted, without that. */
  readonly meetsAsCounted: boolean;
  readonly value: number;
  readonly outcome: Outcome;
}

/**
 * Chooses from `elites` (best first), and those `alike` to the best with the caution that they were played with, for `wish`, a little at a time. `part` says, before each count, which part of its days there is
 * time for.
 */
export function* choose(
  stage: Stage,
  elites: readonly Elite[],
  alike: readonly Elite[],
  crew: CrewRules,
  wish: Wish,
  days: Chosen,
  part: () => number,
): Generator<undefined, Choice | null> {
  const cautions = crew.leavesOut ? [...new Set([crew.caution, ...CAUTIONS])] : [crew.caution];
  const aim = days.exact ? wish : beyond(wish, days.more.count);
  function* counted({ schedule }: Elite, rules: CrewRules, on: Days): Generator<undefined, Count> {
    const count = countOf(stage, schedule, rules, on);
    const most = Math.ceil(on.count * part());
    while (count.days < most) {
      count.until(Math.min(most, count.days + AT_ONCE));
      yield;
    }
    return count;
  }
  function* candidate(elite: Elite, rules: CrewRules, on: Days): Generator<undefined, Candidate> {
    const count = yield* counted(elite, rules, on);
    const { seen } = count;
    return {
      elite,
      crew: rules,
      meets: meetsWish(aim, seen),
      meetsAsCounted: meetsWish(wish, seen),
      value: valueOf(aim, seen),
      outcome: outcomeOf(count),
    };
  }
  const byValue = (a: Candidate, b: Candidate): number => b.value - a.value;
  const all: Candidate[] = [];
  for (const elite of elites)
    for (const caution of cautions) all.push(yield* candidate(elite, { ...crew, caution }, days.few));
  for (const elite of alike)
    all.push(yield* candidate(elite, { ...crew, caution: elite.sampled.caution }, days.few));
  const last: Candidate[] = [];
  const first = finalists(all.sort(byValue));
  for (const one of first) last.push(yield* candidate(one.elite, one.crew, days.more));
  // Where none of those keeps on more days what few days promised, the next surest are asked.
  for (const one of surest(all, beyond(aim, days.few.count)).filter((one) => !first.includes(one))) {
    if (last.length >= FINALISTS + MORE_ASKED || last.some(({ meets }) => meets)) break;
    last.push(yield* candidate(one.elite, one.crew, days.more));
  }
  // What meets the wish comes before what does more: surely, and else as it was counted.
  const best = last.sort(
    (a, b) =>
      Number(b.meets) - Number(a.meets) ||
      Number(b.meetsAsCounted) - Number(a.meetsAsCounted) ||
      byValue(a, b),
  )[0];
  if (!best) return null;
  return choiceOf(best, wish, yield* counted(best.elite, best.crew, days.shown));
}

/** What is chosen, counted on the days that are shown. */
function choiceOf({ elite, crew, outcome }: Candidate, { home, must }: Wish, count: Count): Choice {
  const day = {
    schedule: elite.schedule,
    caution: crew.caution,
    wish: { home, must },
    outcome: outcomeOf(count),
    days: count.days,
    meets: meetsWish({ home, must }, count.seen),
  };
  return { day, chosenBy: outcome };
}

/** Those first that have the least of `wish` missing, and of as much those that do most. */
function surest(all: readonly Candidate[], wish: Wish): readonly Candidate[] {
  const missing = ({ outcome }: Candidate): number => missingOf(wish, outcome);
  return [...all].sort((a, b) => missing(a) - missing(b) || b.value - a.value);
}

/** The best few of a list, best first, none with too many crews; with the best that meets the wish where none of them does. */
function finalists(sorted: readonly Candidate[]): readonly Candidate[] {
  const crews = new Map<Elite, number>();
  const apart = sorted.filter(({ elite }) => {
    const crew = (crews.get(elite) ?? 0) + 1;
    crews.set(elite, crew);
    return crew <= CREWS;
  });
  const first = apart.slice(0, FINALISTS);
  const sure = first.some(({ meets }) => meets) ? undefined : sorted.find(({ meets }) => meets);
  return sure ? [...first.slice(0, -1), sure] : first;
}

/** Days between two moments at which the run may be broken off. */
const AT_ONCE = 100;
