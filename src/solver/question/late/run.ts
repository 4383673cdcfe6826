import type { AheadCell, LateEntry, LateProgress, LateReport, LateRow } from "../../../answers/index.ts";
import { instant } from "../../../kernel/index.ts";
import type { Plan, Schedule } from "../../../plan/index.ts";
import type { PackerRule } from "../../../rules/index.ts";
import { compiled } from "../../problem/known.ts";
import type { Problem } from "../../problem/problem.ts";
import { type PlacedActivity, readSound } from "../../network/verify.ts";
import { routesOf } from "../trial/placed.ts";
import { fitsAhead } from "./ahead.ts";
import { asWhenLater } from "./aslater.ts";
import { cellOf } from "./cell.ts";
import { changes } from "./changing.ts";
import { type Dropped, everythingDropped, leastDropped, loses, lossOf } from "./dropping.ts";
import { Played, SHOWN } from "./played.ts";
import { Remainder } from "./remainder.ts";
import { spoiltBy } from "./spoilt.ts";

/** Lateness and earliness that the tables are made for, minutes. */
export const MINUTES = [5, 10, 20, 30, 45] as const;

export interface LateTableSettings {
  /** Ascending, minutes; MINUTES when left out. */
  readonly minutes?: readonly number[] | undefined;
  /** The caller's clock, seconds from anywhere; it only ends slices. */
  readonly clock: () => number;
}

/** A run that is driven slice by slice. Same plan, schedule and minutes: same report. */
export interface LateTableRun {
  /** Works for about `sliceS` seconds of the clock; false when the run is finished. */
  step(sliceS: number): boolean;
  progress(): LateProgress;
  report(): LateReport;
}

/** Begins the tables of `schedule`: for each task of each EVA what to drop when late and what to get ahead with when early. */
export function lateTableRun(plan: Plan, schedule: Schedule, settings: LateTableSettings): LateTableRun {
  const { clock, minutes = MINUTES } = settings;
  const beganS = clock();
  const problem = compiled(plan, schedule);
  const placings = readSound(problem, schedule);
  const evas = plan.evas.map((eva, e) => ({
    eva: eva.id,
    placings: placings ? standsOn(problem, placings, e) : [],
    rows: [] as LateRow[],
  }));
  const of = evas.reduce((sum, one) => sum + one.placings.length, 0);
  const played = placings ? new Played(problem) : null;
  let complete = placings === null;
  const work = (function* (): Generator<void, void> {
    for (const [e, { placings: own, rows }] of evas.entries())
      for (const placing of played ? own : [])
        rows.push(yield* rowOf(problem, schedule, placings!, placing, e, minutes, played!));
    complete = true;
  })();
  const report = (): LateReport => ({
    minutes,
    days: SHOWN,
    sound: placings !== null,
    complete,
    evas: evas.flatMap(({ eva, rows }) => (rows.length > 0 ? [{ eva, rows: [...rows] }] : [])),
  });
  let reported: LateProgress | null = null;
  /** Made anew only when there is a row more: whoever is told gets all of them again. */
  const progress = (): LateProgress => {
    const found = evas.reduce((sum, one) => sum + one.rows.length, 0);
    if (reported?.rows !== found || reported.report.complete !== complete)
      reported = { seconds: clock() - beganS, rows: found, of, report: report() };
    return reported;
  };
  return {
    step(sliceS) {
      if (complete) return false;
      const endS = clock() + sliceS;
      do if (work.next().done === true) return false;
      while (clock() < endS);
      return true;
    },
    progress,
    report,
  };
}

function standsOn(problem: Problem, placings: readonly PlacedActivity[], eva: number): PlacedActivity[] {
  return placings
    .filter((placing) => {
      const [route] = routesOf(problem, placing);
      return route !== undefined && problem.evaOfRoute[route] === eva;
    })
    .sort((a, b) => a.startS - b.startS || a.activity - b.activity);
}

/** When the EVA goes out on the day as planned (S3). */
function egressOf(problem: Problem, placings: readonly PlacedActivity[], eva: number): number {
  const { activities, beginsAt, endsAt, legS, lengthS, places } = problem;
  const egress = activities + 2 * eva;
  const leaveS = new Map<number, number>();
  for (const placing of standsOn(problem, placings, eva))
    for (const r of routesOf(problem, placing))
      if (!leaveS.has(r))
        leaveS.set(r, placing.startS - legS[r]![endsAt[egress]! * places + beginsAt[placing.activity]!]!);
  return Math.min(...leaveS.values()) - lengthS[egress]!;
}

function* rowOf(
  problem: Problem,
  schedule: Schedule,
  placings: readonly PlacedActivity[],
  present: PlacedActivity,
  eva: number,
  minutes: readonly number[],
  played: Played,
): Generator<void, LateRow> {
  const { plan } = problem;
  const a = present.activity;
  const remainder = new Remainder(problem, schedule, a, eva);
  const lengthsS = minutes.map((by) => problem.lengthS[a]! + by * 60);
  const startS = new Map(placings.map((placing) => [placing.activity, placing.startS]));
  const outS = egressOf(problem, placings, eva);
  const lost = minutes.map((by) => spoiltBy(played.stage, remainder, startS, outS, by * 60));
  const { least, breaks } = yield* droppings(problem, remainder, lengthsS, lost);
  const dropped = yield* asWhenLater(problem, remainder, least, lengthsS, lost, played);
  const made = yield* changes(problem, schedule, remainder, eva, least, dropped, lengthsS, lost, played);
  const onEva = new Set(standsOn(problem, placings, eva).map((placing) => placing.activity));
  const ahead = remainder.open.filter((one) => onEva.has(one));
  const late: LateEntry[] = [];
  for (const [n, by] of minutes.entries()) {
    yield;
    remainder.take(lengthsS[n]!, false, lost[n]!);
    const given = { remainder, schedule, ahead, minutes: by, lengthS: lengthsS[n]!, breaks: breaks[n]! };
    late.push(cellOf(problem, given, dropped[n] ?? null, made[n] ?? null, played));
  }
  const early: AheadCell[] = [];
  for (const by of minutes) early.push(yield* fitsAhead(problem, placings, present, by));
  return {
    task: plan.tasks[a]!.id,
    crew: routesOf(problem, present).map((r) => plan.crew[problem.memberOfRoute[r]!]!.id),
    endS: instant(present.startS + problem.lengthS[a]!),
    late,
    early,
  };
}

/** For each length of the present task the least to drop, and the rules that being so late breaks by itself. */
function* droppings(
  problem: Problem,
  remainder: Remainder,
  lengthsS: readonly number[],
  lost: readonly ReadonlySet<number>[],
): Generator<void, { least: (Dropped | null)[]; breaks: PackerRule[][] }> {
  // The latest first: who is less late may wait and then do as if later.
  const least: (Dropped | null)[] = lengthsS.map(() => null);
  for (let n = lengthsS.length - 1; n >= 0; n -= 1)
    least[n] = yield* leastFor(problem, remainder, lengthsS[n]!, lost[n]!, least[n + 1] ?? null);
  const breaks: PackerRule[][] = [];
  for (const [n, lengthS] of lengthsS.entries()) {
    const before = n === 0 ? undefined : least[n - 1];
    const own = least[n];
    // Nobody gains by being later: what looks so is the search's doing, and the dearer set is kept.
    if (before === null) least[n] = null;
    else if (before && own && loses(own, before))
      least[n] = yield* asDear(problem, remainder, lengthS, lost[n]!, before);
    yield;
    remainder.take(lengthS, false, lost[n]!);
    // Over because it was over before: the rules that were broken then.
    const faults = remainder.faultsAtHome();
    breaks.push(faults.length > 0 ? faults : (breaks.at(-1) ?? []));
  }
  return { least, breaks };
}

/** The least to drop with the present task lasting `lengthS`, with the work stretch under way too long only where that is what it takes. */
function* leastFor(
  problem: Problem,
  remainder: Remainder,
  lengthS: number,
  lost: ReadonlySet<number>,
  later: Dropped | null,
): Generator<void, Dropped | null> {
  for (const tolerant of [false, true]) {
    yield;
    remainder.take(lengthS, tolerant, lost);
    const holds = later !== null && remainder.verify(later.placings);
    const known = holds ? { ...later, ...lossOf(problem, remainder, later.drop), tolerant } : null;
    const made = yield* leastDropped(problem, remainder, known);
    if (made) return made;
  }
  return null;
}

/** What was dropped when less late dropped again, or everything where that does not hold. */
function* asDear(
  problem: Problem,
  remainder: Remainder,
  lengthS: number,
  lost: ReadonlySet<number>,
  before: Dropped,
): Generator<void, Dropped | null> {
  for (const tolerant of [false, true]) {
    yield;
    remainder.take(lengthS, tolerant, lost);
    const again = remainder.again(before);
    const made = again
      ? { ...again, ...lossOf(problem, remainder, again.drop) }
      : everythingDropped(problem, remainder);
    if (made) return made;
  }
  return null;
}
