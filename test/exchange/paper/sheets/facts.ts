import { check } from "../../../../src/check/index.ts";
import { makeCore } from "../../../../src/engine/core.ts";
import { printedDay, type SheetFacts, type SheetStamp } from "../../../../src/exchange/index.ts";
import type { Plan } from "../../../../src/plan/index.ts";
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
    shed: await core.shed(plan, { schedule }),
    reasons: await core.benchReasons(plan, { schedule }),
    walks: await core.siteWalks(plan, { schedule }),
    ground: await core.siteGround(plan, {}),
  };
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
