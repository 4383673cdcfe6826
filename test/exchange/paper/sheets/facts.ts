import { check } from "../../../../src/check/index.ts";
import { makeCore } from "../../../../src/engine/core.ts";
import { type Rehearsed, type SheetFacts } from "../../../../src/exchange/index.ts";
import type { SheetStamp } from "../../../../src/exchange/paper/sheets/frame.ts";
import { printedDay } from "../../../../src/exchange/paper/leaving/printedday.ts";
import { instant } from "../../../../src/kernel/index.ts";
import type { Plan } from "../../../../src/plan/index.ts";
import { type Call, debriefOf, played, rehearsalFrom, standingOf } from "../../../../src/rehearsal/index.ts";
import { walksOf } from "../../../../src/terrain/index.ts";
import { packRun } from "../../../../src/solver/index.ts";

/** Everything that sheets of a plan are made of, worked out by the core itself. */
export async function factsOf(plan: Plan): Promise<SheetFacts> {
  const core = makeCore(() => 0);
  const { schedule } = plan;
  return {
    plan,
    verdict: check(plan, schedule),
    day: printedDay(plan),
    sunDeg: (atS) => 10 + atS / 36_000,
    lateTable: await core.lateTable(plan, { schedule }),
    reasons: await core.benchReasons(plan, { schedule }),
    walks: await core.siteWalks(plan, { schedule }),
    ground: await core.siteGround(plan, {}),
    rehearsal: rehearsed(plan),
  };
}

/** The day played by its crew, with a slip, a hold and a word thrown in at its begin. */
function rehearsed(plan: Plan): Rehearsed {
  const walks = walksOf(plan);
  const begun = rehearsalFrom(0, 1);
  const [first] = plan.schedule.placements;
  const at = { atS: instant(0) };
  const calls: Call[] = [
    ...(first ? [{ ...at, kind: "longer" as const, task: first.task, byS: 600 }] : []),
    { ...at, kind: "hold", untilS: instant(60) },
    { ...at, kind: "note", words: "Everybody is told." },
  ];
  const run = played(plan, { ...begun, calls }, plan.stay.lengthS, walks);
  const planned = check(plan);
  const standing = standingOf(plan, run, walks);
  const debrief = debriefOf(plan, standing, planned.outings);
  return { plan, run, debrief, planned, verdict: check(standing.plan) };
}

export const STAMP: SheetStamp = {
  plan: "Some plan with a name of some length, Quarry Flat",
  revision: "Rev 12 · 0123 4567 · 12 of 45 tasks placed",
  printed: "printed 5 Apr 2031 14:05 UTC",
  notCleared: null,
};

/** The plan with a day packed into it. */
export function packed(plan: Plan, iterations = 150): Plan {
  const run = packRun(plan, { seed: 1, iterations, clock: () => 0 });
  while (run.step(1)) continue;
  return { ...plan, schedule: run.best() };
}
