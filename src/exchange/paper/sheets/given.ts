import type {
  BenchReason,
  GoIf,
  HomeIf,
  Outing,
  PrintedDay,
  LateReport,
  SiteGround,
  SiteWalks,
  Verdict,
} from "../../../answers/index.ts";
import { type Eva, type Plan, type Task, tasksById } from "../../../plan/index.ts";
import { taskNumber, touchdownMs } from "../../../words/index.ts";
import type { Debrief, Rehearsal } from "../../../rehearsal/index.ts";
import { goIfsGiven, homeIfsGiven } from "../givenstocks.ts";
import { playedAsPrinted } from "../leaving/asprinted.ts";

/** A day under rehearsal, with the plan as it was when it began, and what came of it. */
export interface Rehearsed {
  readonly plan: Plan;
  readonly run: Rehearsal;
  readonly debrief: Debrief;
  /** The judge's word on the plan as it was, and on the day as it went and would go on. */
  readonly planned: Verdict;
  readonly verdict: Verdict;
}

/** What sheets are made of: the plan with its schedule, and what the judge and the maker say of it. Unknown is said where something is missing. */
export interface SheetFacts {
  readonly plan: Plan;
  /** Of the plan with its own schedule. */
  readonly verdict: Verdict;
  readonly day: PrintedDay;
  /** Elevation of the sun at the site, degrees; null where it is not known. */
  readonly sunDeg: (atS: number) => number | null;
  readonly lateTable?: LateReport | undefined;
  /** Why what is on the bench is there. */
  readonly reasons?: readonly BenchReason[] | undefined;
  readonly walks?: SiteWalks | undefined;
  readonly ground?: SiteGround | null | undefined;
  readonly rehearsal?: Rehearsed | undefined;
}

/** With the day as the judge has it where everybody leaves as printed, and what every suit must hold there. */
export interface SheetGiven extends SheetFacts {
  readonly played: Verdict;
  readonly homeIf: readonly HomeIf[];
  readonly goIf: readonly GoIf[];
}

/** The facts with what the judge says of them beside. */
export function givenOf(facts: SheetFacts): SheetGiven {
  const { plan, day } = facts;
  return {
    ...facts,
    played: playedAsPrinted(plan, day),
    homeIf: homeIfsGiven(plan),
    goIf: goIfsGiven(plan, day),
  };
}

/** A task as it is placed. */
export interface PlacedTask {
  readonly task: Task;
  readonly number: string;
  readonly eva: string | null;
  readonly crew: readonly string[];
  readonly startS: number;
  readonly endS: number;
}

/** What is placed, by start. */
export function placedTasksOf(plan: Plan): PlacedTask[] {
  const tasks = tasksById(plan);
  return plan.schedule.placements
    .flatMap((placement) => {
      const task = tasks.get(placement.task);
      if (!task) return [];
      const { eva, crew, startS } = placement;
      return [
        { task, number: taskNumber(plan, task.id), eva, crew, startS, endS: startS + task.duration.likelyS },
      ];
    })
    .sort((a, b) => a.startS - b.startS || (a.task.id < b.task.id ? -1 : 1));
}

/** The outings of an EVA that takes place, in the order of its crew; none where it does not. */
function outingsOf({ played }: Pick<SheetGiven, "played">, eva: Eva): Outing[] {
  return eva.crew.flatMap(
    (crew) => played.outings.find((one) => one.eva === eva.id && one.crew === crew) ?? [],
  );
}

/** The EVAs that take place, by egress, each with its outings. */
export function evasOut(
  given: Pick<SheetGiven, "plan" | "played">,
): { readonly eva: Eva; readonly outings: readonly [Outing, ...Outing[]] }[] {
  return given.plan.evas
    .flatMap((eva) => {
      const [first, ...more] = outingsOf(given, eva);
      return first ? [{ eva, outings: [first, ...more] as const }] : [];
    })
    .sort((a, b) => a.outings[0].span.startS - b.outings[0].span.startS);
}

/** What a key says of the dash in place of a time of day; nothing where touchdown is known. */
export function utcKey(plan: Plan): string {
  return touchdownMs(plan) === null ? " UTC –: nobody has given the touchdown." : "";
}
