import type { ChancesReport, Recall, Verdict } from "../answers/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import type { DayStanding, ReadOut, Rehearsal } from "../rehearsal/index.ts";
import type { WordedChange } from "../words/index.ts";
import type { Leaves } from "./leaving.ts";

/** A day under rehearsal. It keeps the plan as it was when it began, whatever becomes of the open one. */
export interface Rehearsed {
  readonly plan: Plan;
  readonly rehearsal: Rehearsal;
  /** The judge's word on the plan as it was. */
  readonly planned: Verdict;
  readonly standing: DayStanding;
  /** The plan as the day goes, with what gauges said in it, and the judge's word on it. */
  readonly now: Plan;
  readonly verdict: Verdict;
  readonly reads: readonly ReadOut[];
  /** Each EVA that is out: how soon and how late all can be inside, and when each must start home. */
  readonly recalls: readonly Recall[];
}

/** A schedule for what is to come that waits for a yes or no. */
export interface Proposal {
  readonly how: "mend" | "pack";
  readonly schedule: Schedule;
  readonly verdict: Verdict;
  /** What changes, what is lost first. */
  readonly changes: readonly WordedChange[];
  /** When it was asked for: older than this it no longer fits. */
  readonly requestedS: number;
  /** Of the day as it would go on and with the proposal; null while they are counted, or where they cannot be. */
  readonly chances: { readonly before: ChancesReport; readonly after: ChancesReport } | null;
  /** Must-do tasks that were given up already: no chance counts them. */
  readonly givenUp: readonly string[];
}

export interface RehearsalState {
  readonly day: Rehearsed | null;
  /** The clock runs. */
  readonly running: boolean;
  /** Mission seconds a second. */
  readonly speed: number;
  /** Who says when a task begins and ends: the crew by itself, or whoever leads the rehearsal. */
  readonly caller: "crew" | "trainer";
  readonly planning: "mend" | "pack" | null;
  readonly proposal: Proposal | null;
  readonly trouble: string | null;
  /** Why the rehearsal is not kept in the browser and lasts only as long as the page, unless it is saved as a file; null where it is. */
  readonly unkept: string | null;
  /** When to leave on the day as it goes on; null where the judge has not tested that. */
  readonly leaves: Leaves | null;
}

/** True when nobody is out and nothing is to come, or the stay is over. */
export function isOver({ plan, rehearsal, standing }: Rehearsed): boolean {
  const { facts, placements } = standing;
  if (rehearsal.nowS >= plan.stay.lengthS) return true;
  return (
    placements.every((placement) => placement.state === "done") &&
    [...facts.outS.keys()].every((eva) => facts.inS.has(eva))
  );
}
