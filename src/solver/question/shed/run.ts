import type { AheadCell, ShedCell, ShedProgress, ShedReport, ShedRow } from "../../../answers/index.ts";
import { instant } from "../../../kernel/index.ts";
import type { Plan, Schedule } from "../../../plan/index.ts";
import { type PackerRule, ruleInWords } from "../../../rules/index.ts";
import { listed } from "../../../words/index.ts";
import { compiled } from "../../problem/known.ts";
import type { Problem } from "../../problem/problem.ts";
import { read, type Stand, Verifier } from "../../network/verify.ts";
import { fitsAhead, routesOf } from "./ahead.ts";
import { type Dropped, everythingDropped, leastDropped, loses } from "./dropping.ts";
import { Rest } from "./rest.ts";

/** Lateness and earliness that the tables are made for, minutes. */
export const MINUTES = [5, 10, 20, 30, 45] as const;

export interface ShedSettings {
  /** Ascending, minutes; MINUTES when left out. */
  readonly minutes?: readonly number[] | undefined;
  /** The caller's clock, seconds from anywhere; it only ends slices. */
  readonly clock: () => number;
}

/** A run that is driven slice by slice. Same plan, schedule and minutes: same report. */
export interface ShedRun {
  /** Works for about `sliceS` seconds of the clock; false when the run is finished. */
  step(sliceS: number): boolean;
  progress(): ShedProgress;
  report(): ShedReport;
}

/** Begins the tables of `schedule`: for each task of each EVA what to drop when late and what to get ahead with when early. */
export function shedRun(plan: Plan, schedule: Schedule, settings: ShedSettings): ShedRun {
  const { clock, minutes = MINUTES } = settings;
  const beganS = clock();
  const problem = compiled(plan, schedule);
  const { stands, unread } = read(problem, schedule);
  const sound = unread.length === 0 && new Verifier(problem).holds(stands);
  const evas = plan.evas.map((eva, e) => ({
    eva: eva.id,
    stands: sound ? standsOn(problem, stands, e) : [],
    rows: [] as ShedRow[],
  }));
  const of = evas.reduce((sum, one) => sum + one.stands.length, 0);
  let complete = !sound;
  const work = (function* (): Generator<void, void> {
    for (const [e, { stands: own, rows }] of evas.entries())
      for (const stand of own) rows.push(yield* rowOf(problem, schedule, stands, stand, e, minutes));
    complete = true;
  })();
  return {
    step(sliceS) {
      if (complete) return false;
      const endS = clock() + sliceS;
      do if (work.next().done === true) return false;
      while (clock() < endS);
      return true;
    },
    progress: () => ({
      seconds: clock() - beganS,
      rows: evas.reduce((sum, one) => sum + one.rows.length, 0),
      of,
    }),
    report: () => ({
      minutes,
      sound,
      complete,
      evas: evas.flatMap(({ eva, rows }) => (rows.length > 0 ? [{ eva, rows: [...rows] }] : [])),
    }),
  };
}

/** The day as a cell has it: what it drops left out, what it moves at its new start. */
export function shedSchedule(schedule: Schedule, cell: ShedCell): Schedule {
  const startOf = new Map(cell.moves.map((move) => [move.task, move.startS]));
  return {
    placements: schedule.placements
      .filter((placement) => !cell.drop.includes(placement.task))
      .map((placement) => ({ ...placement, startS: startOf.get(placement.task) ?? placement.startS })),
  };
}

function standsOn(problem: Problem, stands: readonly Stand[], eva: number): Stand[] {
  return stands
    .filter((stand) => {
      const [route] = routesOf(problem, stand);
      return route !== undefined && problem.evaOfRoute[route] === eva;
    })
    .sort((a, b) => a.startS - b.startS || a.activity - b.activity);
}

function* rowOf(
  problem: Problem,
  schedule: Schedule,
  stands: readonly Stand[],
  present: Stand,
  eva: number,
  minutes: readonly number[],
): Generator<void, ShedRow> {
  const { plan } = problem;
  const a = present.activity;
  const rest = new Rest(problem, schedule, a, eva);
  const early: AheadCell[] = [];
  // The latest first: who is less late may wait and then do as if later.
  const found: (Dropped | null)[] = minutes.map(() => null);
  for (let n = minutes.length - 1; n >= 0; n -= 1) {
    const lengthS = problem.lengthS[a]! + minutes[n]! * 60;
    const later = found[n + 1] ?? null;
    for (const tolerant of [false, true]) {
      yield;
      rest.take(lengthS, tolerant);
      const known = later && rest.verify(later.stands) ? { ...later, tolerant } : null;
      found[n] = yield* leastDropped(problem, rest, known);
      if (found[n]) break;
    }
  }
  const late: ShedCell[] = [];
  for (const [n, by] of minutes.entries()) {
    const before = n === 0 ? undefined : found[n - 1];
    const lengthS = problem.lengthS[a]! + by * 60;
    // Nobody gains by being later: what looks so is the search's doing, and the dearer set is kept.
    if (before === null) found[n] = null;
    else if (before && found[n] && loses(found[n]!, before)) {
      found[n] = null;
      for (const tolerant of [false, true]) {
        yield;
        rest.take(lengthS, tolerant);
        found[n] ??= rest.again(before) ?? everythingDropped(problem, rest);
      }
    }
    yield;
    rest.take(lengthS, false);
    // Over because it was over before: the rules that were broken then.
    const faults = rest.faultsAtHome();
    const breaks = faults.length > 0 ? faults : (late.at(-1)?.breaks ?? []);
    late.push(cellOf(problem, rest, stands, eva, by, found[n]!, breaks));
  }
  for (const by of minutes) early.push(yield* fitsAhead(problem, stands, present, by));
  return {
    task: plan.tasks[a]!.id,
    crew: routesOf(problem, present).map((r) => plan.crew[problem.memberOfRoute[r]!]!.id),
    endS: instant(present.startS + problem.lengthS[a]!),
    late,
    early,
  };
}

function cellOf(
  problem: Problem,
  rest: Rest,
  stands: readonly Stand[],
  eva: number,
  minutes: number,
  dropped: Dropped | null,
  faults: readonly PackerRule[],
): ShedCell {
  const { plan } = problem;
  const onEva = new Set(standsOn(problem, stands, eva).map((stand) => stand.activity));
  const ahead = rest.open.filter((a) => onEva.has(a));
  const lost = dropped ? dropped.drop : rest.open;
  const kind = !dropped
    ? "over"
    : dropped.drop.length === 0
      ? "keep"
      : ahead.length > 0 && ahead.every((a) => dropped.drop.includes(a))
        ? "end"
        : "drop";
  const planned = new Map(stands.map((stand) => [stand.activity, stand.startS]));
  const names = lost.map((a) => plan.tasks[a]!.name);
  const breaks: readonly PackerRule[] = !dropped ? faults : dropped.tolerant ? ["work-and-rest"] : [];
  const restSoon = dropped?.tolerant ? " Rest at the next stop: the stretch of work is too long." : "";
  const before = `If ${minutes} min late leaving ${plan.tasks[rest.present]!.name}:`;
  return {
    minutes,
    kind,
    drop: lost.map((a) => plan.tasks[a]!.id),
    vain: (dropped?.vain ?? []).map((a) => plan.tasks[a]!.id),
    mustLost: dropped?.mustLost ?? lost.filter((a) => problem.must[a] === 1).length,
    worthLost: dropped?.worthLost ?? lost.reduce((sum, a) => sum + problem.worth[a]!, 0),
    least: dropped?.least ?? true,
    breaks,
    moves: (dropped?.stands ?? []).flatMap(({ activity, startS }) =>
      startS === planned.get(activity) ? [] : [{ task: plan.tasks[activity]!.id, startS: instant(startS) }],
    ),
    sentence:
      kind === "keep"
        ? `${before} drop nothing.${restSoon}`
        : kind === "drop"
          ? `${before} drop ${listed(names)}.${restSoon}`
          : kind === "end"
            ? `${before} end the EVA.${restSoon}`
            : `${before} end the EVA at once; even so there is trouble with ${listed(breaks.map(ruleInWords))}.`,
  };
}
