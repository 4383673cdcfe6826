import { instant } from "../../kernel/index.ts";
import type { Plan, Schedule } from "../../plan/index.ts";
import { compile } from "../compile/index.ts";
import type { Problem } from "../problem.ts";
import { read, type Stand, Verifier } from "../verify.ts";
import { named } from "../words.ts";
import { fitsAhead, routesOf } from "./ahead.ts";
import { type Dropped, leastDropped } from "./dropping.ts";
import {
  type AheadCell,
  MINUTES,
  type ShedCell,
  type ShedProgress,
  type ShedReport,
  type ShedRow,
} from "./report.ts";
import { Rest } from "./rest.ts";

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
  const problem = compile(plan);
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
  const late: ShedCell[] = [];
  const early: AheadCell[] = [];
  let atLeast = { mustLost: 0, worthLost: 0 };
  for (const by of minutes) {
    yield;
    rest.take(problem.lengthS[a]! + by * 60);
    const dropped = yield* leastDropped(problem, rest, atLeast);
    if (dropped) atLeast = dropped;
    late.push(cellOf(problem, rest, stands, eva, by, dropped));
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
  const before = `If ${minutes} min late leaving ${plan.tasks[rest.present]!.name}:`;
  return {
    minutes,
    kind,
    drop: lost.map((a) => plan.tasks[a]!.id),
    mustLost: lost.filter((a) => problem.must[a] === 1).length,
    worthLost: lost.reduce((sum, a) => sum + problem.worth[a]!, 0),
    least: dropped?.least ?? true,
    moves: (dropped?.stands ?? []).flatMap(({ activity, startS }) =>
      startS === planned.get(activity) ? [] : [{ task: plan.tasks[activity]!.id, startS: instant(startS) }],
    ),
    sentence:
      kind === "keep"
        ? `${before} drop nothing.`
        : kind === "drop"
          ? `${before} drop ${named(names)}.`
          : kind === "end"
            ? `${before} end the EVA.`
            : `${before} end the EVA at once; a limit is broken all the same.`,
  };
}
