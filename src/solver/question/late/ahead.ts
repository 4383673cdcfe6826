import type { AheadCell } from "../../../answers/index.ts";
import { instant } from "../../../kernel/index.ts";
import { nextStart } from "../../problem/starts.ts";
import type { Problem } from "../../problem/problem.ts";
import { NEVER } from "../../problem/problem.ts";
import { type PlacedActivity, Verifier } from "../../network/verify.ts";
import { routesOf } from "../trial/placed.ts";
import { lasting } from "./lasting.ts";

/**
 * Bench tasks of which each fits straight after `present` when it is left `minutes` early: by those who did it and
 * nobody else, at the first moment that way, windows and least lags allow, everything else exactly as planned. Yields between
 * attempts.
 */
export function* fitsAhead(
  problem: Problem,
  placings: readonly PlacedActivity[],
  present: PlacedActivity,
  minutes: number,
): Generator<void, AheadCell> {
  const { plan } = problem;
  const lengthS = problem.lengthS[present.activity]! - minutes * 60;
  if (lengthS < 0) return { minutes, possible: false, fits: [] };
  const early = lasting(problem, present.activity, lengthS, new Uint8Array(problem.activities));
  const verifier = new Verifier(early);
  const placed = new Set(placings.map((placing) => placing.activity));
  const startOf = new Map(placings.map((placing) => [placing.activity, placing.startS]));
  const routes = routesOf(problem, present);
  const leftS = present.startS + lengthS;
  const fits: { task: string; crew: string[]; startS: ReturnType<typeof instant> }[] = [];
  const bench = plan.tasks
    .map((_, a) => a)
    .filter((a) => !placed.has(a) && problem.crewCount[a]! > 0)
    .sort((a, b) => problem.worth[b]! - problem.worth[a]! || a - b);
  for (const a of bench) {
    for (let c = problem.choiceStart[a]!; c < problem.choiceStart[a + 1]!; c += 1) {
      const own = routesOf(problem, { activity: a, choice: c, startS: 0 });
      if (!own.every((r) => routes.includes(r))) continue;
      const startS = firstStart(early, a, own, present.activity, leftS, startOf);
      if (startS === null || !beforeNext(early, a, own, startS, leftS, placings)) continue;
      yield;
      if (!verifier.holds([...placings, { activity: a, choice: c, startS }])) continue;
      fits.push({
        task: plan.tasks[a]!.id,
        crew: own.map((r) => plan.crew[problem.memberOfRoute[r]!]!.id),
        startS: instant(startS),
      });
      break;
    }
  }
  return { minutes, possible: true, fits };
}

function firstStart(
  problem: Problem,
  a: number,
  routes: readonly number[],
  from: number,
  leftS: number,
  startOf: ReadonlyMap<number, number>,
): number | null {
  const { places, endsAt, beginsAt, legS, edges } = problem;
  let startS = leftS;
  for (const r of routes) {
    const wayS = legS[r]![endsAt[from]! * places + beginsAt[a]!]!;
    if (wayS >= NEVER) return null;
    startS = Math.max(startS, leftS + wayS);
  }
  for (let x = edges.intoStart[a]!; x < edges.intoStart[a + 1]!; x += 1) {
    const edge = edges.into[x]!;
    const sinceS = startOf.get(edges.from[edge]!);
    if (sinceS !== undefined) startS = Math.max(startS, sinceS + edges.weight[edge]!);
  }
  return nextStart(problem, a, startS);
}

/** A quick look before the full test: time enough until what comes next on each route. */
function beforeNext(
  problem: Problem,
  a: number,
  routes: readonly number[],
  startS: number,
  leftS: number,
  placings: readonly PlacedActivity[],
): boolean {
  return placings.every((placing) => {
    if (placing.startS < leftS || !routesOf(problem, placing).some((r) => routes.includes(r))) return true;
    return startS + problem.lengthS[a]! <= placing.startS;
  });
}
