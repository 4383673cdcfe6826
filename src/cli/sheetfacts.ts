import { check } from "../check/index.ts";
import type { Rehearsed, SheetFacts, SheetNeed } from "../exchange/index.ts";
import type { Plan } from "../plan/index.ts";
import {
  debriefOf,
  played,
  readOuts,
  type Rehearsal,
  rehearsalFrom,
  standingOf,
  withReadings,
} from "../rehearsal/index.ts";
import { sunDegOver, walksOf } from "../terrain/index.ts";
import { core, turnOf } from "./core.ts";
import type { Streams } from "./verb.ts";

/** What sheets of a plan are made of, with what those asked for need. */
export async function sheetFacts(
  plan: Plan,
  needs: readonly SheetNeed[],
  streams: Streams,
  rehearsal: { readonly seed: number } | Rehearsal = { seed: 1 },
): Promise<SheetFacts> {
  const engine = core();
  const { schedule } = plan;
  const turn = turnOf(streams);
  return {
    plan,
    verdict: check(plan, schedule),
    day: await engine.printed(plan, {}, turn),
    sunDeg: (atS) => sunDegOver(plan, atS),
    lateTable: needs.includes("late table") ? await engine.lateTable(plan, { schedule }, turn) : undefined,
    reasons: needs.includes("reasons") ? await engine.benchReasons(plan, { schedule }) : undefined,
    walks: needs.includes("walks") ? await engine.siteWalks(plan, { schedule }) : undefined,
    rehearsal: needs.includes("rehearsal") ? rehearsed(plan, rehearsal) : undefined,
    ground: needs.includes("walks") ? await engine.siteGround(plan, {}) : undefined,
  };
}

/** A rehearsal as it was saved, or the day as its crew plays it by itself, with durations drawn by a seed. */
function rehearsed(plan: Plan, given: { readonly seed: number } | Rehearsal): Rehearsed {
  const walks = walksOf(plan);
  const run = "calls" in given ? given : played(plan, rehearsalFrom(0, given.seed), plan.stay.lengthS, walks);
  const planned = check(plan);
  const standing = standingOf(plan, run, walks);
  const first = check(standing.plan);
  const now = withReadings(standing.plan, readOuts(standing.facts.readings, first.margins));
  const verdict = now === standing.plan ? first : check(now);
  return { plan, run, debrief: debriefOf(plan, standing, planned.outings), planned, verdict };
}
