import { check } from "../check/index.ts";
import type { Rehearsed, SheetFacts, SheetNeed } from "../exchange/index.ts";
import { moonSun } from "../physics/index.ts";
import type { Plan } from "../plan/index.ts";
import { debriefOf, played, rehearsalFrom, standingOf } from "../rehearsal/index.ts";
import { walksOf } from "../terrain/index.ts";
import { touchdownMs } from "../words/index.ts";
import { core, turnOf } from "./core.ts";
import type { Streams } from "./verb.ts";

/** What sheets of a plan are made of, with what those asked for need. */
export async function sheetFacts(
  plan: Plan,
  needs: readonly SheetNeed[],
  streams: Streams,
  seed = 1,
): Promise<SheetFacts> {
  const engine = core();
  const { schedule } = plan;
  const turn = turnOf(streams);
  return {
    plan,
    verdict: check(plan, schedule),
    day: await engine.printed(plan, {}, turn),
    sunDeg: sunOver(plan),
    shed: needs.includes("shed") ? await engine.shed(plan, { schedule }, turn) : undefined,
    reasons: needs.includes("reasons") ? await engine.benchReasons(plan, { schedule }) : undefined,
    walks: needs.includes("walks") ? await engine.siteWalks(plan, { schedule }) : undefined,
    rehearsal: needs.includes("rehearsal") ? rehearsed(plan, seed) : undefined,
    ground: needs.includes("walks") ? await engine.siteGround(plan, {}) : undefined,
  };
}

/** The day as its crew plays it by itself, with durations drawn by `seed`. */
function rehearsed(plan: Plan, seed: number): Rehearsed {
  const walks = walksOf(plan);
  const run = played(plan, rehearsalFrom(0, seed), plan.stay.lengthS, walks);
  return { plan, run, debrief: debriefOf(plan, standingOf(plan, run, walks), check(plan).outings) };
}

/** Elevation of the sun over the site, degrees; null where nobody knows where it stands. */
function sunOver({ body, site, stay }: Plan): (atS: number) => number | null {
  if (body.ephemeris !== "moon") return () => null;
  const { latDeg, lonDeg, elevationM } = site;
  const observer = { latDeg, lonDeg, radiusM: body.radiusM + elevationM };
  return (atS) => moonSun(touchdownMs({ stay }) + atS * 1000, observer).elevationDeg;
}
