import { countedMust, countedWorth } from "./counted.ts";
import type { Plan } from "../plan/index.ts";
import { taskNumber } from "../words/index.ts";
import type { Facts } from "./facts.ts";
import { isMark } from "./marks.ts";
import type { ProjectedPlacement } from "./projection.ts";
import type { DayStanding } from "./standing.ts";

/** One task, planned against rehearsed. Times are MET, s; null where there is none. */
export interface DebriefRow {
  readonly task: string;
  /** Its one number. */
  readonly number: string;
  readonly name: string;
  readonly must: boolean;
  readonly worth: number;
  readonly crew: readonly string[];
  readonly plannedStartS: number | null;
  readonly plannedLengthS: number;
  readonly startS: number | null;
  /** How long was worked at it, to its end or until it was broken off. */
  readonly lengthS: number | null;
  /** Began so much later than planned; negative for earlier. */
  readonly lateS: number | null;
  /** Took so much longer than planned; negative for less. Only of what was worked at to its end. */
  readonly longerS: number | null;
  readonly outcome: "done" | "under way" | "to come" | Loss;
  /** Why it does not count as done. */
  readonly why: string | null;
}

/** How a task comes not to count: never begun, begun and not brought to its end, or done and its result lost. */
type Loss = "left out" | "broken off" | "spoilt";

/** True for a task that will not count as done any more. */
export function isLost({ outcome }: DebriefRow): boolean {
  return outcome === "left out" || outcome === "broken off" || outcome === "spoilt";
}

/** One EVA, planned against rehearsed. */
interface DebriefEva {
  readonly eva: string;
  readonly name: string;
  readonly plannedOutS: number | null;
  readonly plannedInS: number | null;
  readonly outS: number | null;
  readonly inS: number | null;
}

export interface Debrief {
  readonly rows: readonly DebriefRow[];
  readonly evas: readonly DebriefEva[];
  readonly done: number;
  readonly planned: number;
  readonly mustDone: number;
  readonly mustPlanned: number;
  readonly worthDone: number;
  readonly worthPlanned: number;
}

function whyNot(plan: Plan, facts: Facts, task: string): string {
  const given = facts.leftOut.get(task);
  if (given !== undefined) return given;
  const eva = facts.schedule.placements.find((one) => one.task === task)?.eva;
  const name = plan.evas.find((one) => one.id === eva)?.name;
  return name === undefined ? "dropped when the day was planned anew" : `${name} was over`;
}

/** Egress and ingress of each EVA as the judge has them. */
export interface PlannedOuting {
  readonly eva: string;
  readonly span: { readonly startS: number; readonly endS: number };
}

/**
 * What was planned against what came of it: every task that was planned or done, in order of its planned start, new ones last.
 * `outings` are the judge's of the plan as it was.
 */
export function debriefOf(
  plan: Plan,
  { facts, placements }: Pick<DayStanding, "facts" | "placements">,
  outings: readonly PlannedOuting[],
): Debrief {
  const planned = new Map(plan.schedule.placements.map((placement) => [placement.task, placement]));
  const now = new Map(
    placements.filter((placement) => !isMark(placement.task)).map((placement) => [placement.task, placement]),
  );
  const rows = plan.tasks
    .filter((task) => planned.has(task.id) || now.has(task.id))
    .map((task): DebriefRow => {
      const was = planned.get(task.id) ?? null;
      const placement = now.get(task.id) ?? null;
      const work = workedAt(facts, task.id, placement);
      const lengthS = work?.over ? work.endS - work.startS : null;
      const outcome = placement?.state ?? lossOf(facts, task.id);
      return {
        task: task.id,
        number: taskNumber(plan, task.id),
        name: task.name,
        must: task.must,
        worth: task.worth,
        crew: (placement ?? was)?.crew ?? [],
        plannedStartS: was?.startS ?? null,
        plannedLengthS: task.duration.likelyS,
        startS: work?.startS ?? null,
        lengthS,
        lateS: work && was ? work.startS - was.startS : null,
        longerS: lengthS === null || outcome === "broken off" ? null : lengthS - task.duration.likelyS,
        outcome,
        why: placement ? null : whyNot(plan, facts, task.id),
      };
    })
    .toSorted((a, b) => (a.plannedStartS ?? Infinity) - (b.plannedStartS ?? Infinity));
  const evas = plan.evas.map((eva): DebriefEva => {
    const outing = outings.find((one) => one.eva === eva.id);
    return {
      eva: eva.id,
      name: eva.name,
      plannedOutS: outing?.span.startS ?? null,
      plannedInS: outing?.span.endS ?? null,
      outS: facts.outS.get(eva.id) ?? null,
      inS: facts.inS.get(eva.id) ?? null,
    };
  });
  return { rows, evas, ...countsOf(plan, rows) };
}

function lossOf({ stopped }: Facts, task: string): Loss {
  const work = stopped.get(task);
  if (!work) return "left out";
  return work.whole ? "spoilt" : "broken off";
}

/** When a task was or is worked at, s MET, and whether that is over; null while it has not begun. */
function workedAt(
  { stopped }: Facts,
  task: string,
  placement: ProjectedPlacement | null,
): { readonly startS: number; readonly endS: number; readonly over: boolean } | null {
  const work = stopped.get(task);
  if (work) return { ...work, over: true };
  return placement && placement.state !== "to come"
    ? { ...placement, over: placement.state === "done" }
    : null;
}

/** How much was planned, and how much of it is done. */
function countsOf(plan: Plan, rows: readonly DebriefRow[]): Omit<Debrief, "rows" | "evas"> {
  const ids = (list: readonly DebriefRow[]) => new Set(list.map((row) => row.task));
  const done = ids(rows.filter((row) => row.outcome === "done"));
  const planned = ids(rows.filter((row) => row.plannedStartS !== null));
  const must = countedMust(plan, (task) => done.has(task));
  return {
    done: done.size,
    planned: planned.size,
    mustDone: must.done,
    mustPlanned: must.of,
    worthDone: countedWorth(plan, (task) => done.has(task)),
    worthPlanned: countedWorth(plan, (task) => planned.has(task)),
  };
}
