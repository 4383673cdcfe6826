import { gridFrom, gridTo } from "../../../kernel/index.ts";
import { isOpen, openingsOfActivity } from "../../problem/starts.ts";
import type { Problem } from "../../problem/problem.ts";
import type { PlacedActivity, Verifier } from "../../network/verify.ts";

/** Starts looked at between two breaths. */
const BREATH = 40;

/**
 * The start and crew choice nearest in time to `nearS` at which `activity` stands soundly beside `rest`, which is sound itself;
 * null when no start looked at is. Looked at are `nearS` itself and, on the grid, the starts on both sides of where something begins to
 * touch (a neighbour's way, a window, a lag, an end of the EVA); where a nearer start is not sound, the border between is found to the
 * grid. In slices.
 */
export function* nearby(
  verifier: Verifier,
  rest: readonly PlacedActivity[],
  activity: number,
  nearS: number,
): Generator<void, PlacedActivity | null> {
  const { problem } = verifier;
  const list: PlacedActivity[] = [];
  for (let choice = problem.choiceStart[activity]!; choice < problem.choiceStart[activity + 1]!; choice += 1)
    for (const startS of touching(problem, rest, activity, choice, nearS))
      list.push({ activity, choice, startS });
  const away = (placing: PlacedActivity): number => Math.abs(placing.startS - nearS);
  list.sort((a, b) => away(a) - away(b) || a.choice - b.choice);
  let best: PlacedActivity | null = null;
  for (const [k, placing] of list.entries()) {
    if (best && away(placing) >= away(best)) break;
    if (k % BREATH === BREATH - 1) yield;
    if (!verifier.holds([...rest, placing])) continue;
    best = toBorder(verifier, rest, placing, nearS);
  }
  return best;
}

/** From a sound start on the grid as far towards `nearS` as stays sound, found by halving. */
function toBorder(
  verifier: Verifier,
  rest: readonly PlacedActivity[],
  placing: PlacedActivity,
  nearS: number,
): PlacedActivity {
  const { gridS } = verifier.problem;
  if (placing.startS % gridS !== 0) return placing;
  const stepS = Math.sign(nearS - placing.startS) * gridS;
  let sound = 0;
  let broken = Math.ceil(Math.abs(nearS - placing.startS) / gridS);
  while (broken - sound > 1) {
    const steps = Math.floor((sound + broken) / 2);
    if (verifier.holds([...rest, { ...placing, startS: placing.startS + steps * stepS }])) sound = steps;
    else broken = steps;
  }
  return { ...placing, startS: placing.startS + sound * stepS };
}

/**
 * Starts of `activity` on `choice` inside its windows beside which it begins to touch something, on the grid, its pinned start, and
 * `nearS` itself.
 */
function touching(
  problem: Problem,
  rest: readonly PlacedActivity[],
  activity: number,
  choice: number,
  nearS: number,
): number[] {
  const r = problem.crewCount[activity] === 0 ? -1 : problem.choiceRoutes[problem.choiceAt[choice]!]!;
  const starts = [
    ...rest.flatMap((one) => besideOne(problem, one, activity, r)),
    ...byLags(problem, rest, activity),
    ...(r < 0 ? [] : byGaps(problem, activity, r)),
  ];
  const { gridS } = problem;
  const near = starts.flatMap((startS) => [gridTo(startS, gridS), gridFrom(startS, gridS)]);
  const open = isOpen(problem.windows, activity, nearS) ? [nearS] : [];
  for (const { fromS, toS } of openingsOfActivity(problem, activity))
    open.push(fromS, toS, ...near.filter((startS) => startS >= fromS && startS <= toS));
  return [...new Set(open)].filter((startS) => Math.abs(startS) < FAR_S);
}

/** Right before and after another task, with a rest between, or where the way out or home to it sets the ends of the EVA; `r` -1 without crew. */
function besideOne(
  problem: Problem,
  { activity: i, startS }: PlacedActivity,
  activity: number,
  r: number,
): number[] {
  const { lengthS, beginsAt, endsAt, places, lander, limits } = problem;
  const wayS = (from: number, to: number): number => (r < 0 ? 0 : problem.legS[r]![from * places + to]!);
  const lasts = lengthS[activity]!;
  const into = beginsAt[activity]!;
  const from = endsAt[activity]!;
  const doneS = startS + lengthS[i]!;
  const afterS = doneS + wayS(endsAt[i]!, into);
  const beforeS = startS - wayS(from, beginsAt[i]!) - lasts;
  const starts = [doneS, afterS, afterS + limits.restS, startS - lasts, beforeS, beforeS - limits.restS];
  if (r < 0) return starts;
  const e = problem.evaOfRoute[r]!;
  const egress = problem.activities + 2 * e;
  const homeS = doneS + wayS(endsAt[i]!, lander) + lengthS[egress + 1]!;
  const outS = startS - wayS(lander, beginsAt[i]!) - lengthS[egress]!;
  if (problem.pet)
    starts.push(outS + problem.pet.fromS[activity]!, outS + problem.pet.toS[activity]! - lasts);
  starts.push(homeS - problem.longestS[e]! + lengthS[egress]! + wayS(lander, into));
  starts.push(outS + problem.longestS[e]! - lengthS[egress + 1]! - wayS(from, lander) - lasts);
  return starts;
}

/** Where a lag from or to another task is just kept. */
function byLags({ edges }: Problem, rest: readonly PlacedActivity[], activity: number): number[] {
  const startOf = new Map(rest.map((placing) => [placing.activity, placing.startS]));
  const starts: number[] = [];
  for (let x = 0; x < edges.from.length; x += 1) {
    const before = edges.to[x] === activity ? startOf.get(edges.from[x]!) : undefined;
    const after = edges.from[x] === activity ? startOf.get(edges.to[x]!) : undefined;
    if (before !== undefined) starts.push(before + edges.weight[x]!);
    if (after !== undefined) starts.push(after - edges.weight[x]!);
  }
  return starts;
}

/** First after egress and last before ingress, at the ends of the stretches in which the EVA of route `r` may be out. */
function byGaps(problem: Problem, activity: number, r: number): number[] {
  const { lengthS, beginsAt, endsAt, places, lander } = problem;
  const legs = problem.legS[r]!;
  const e = problem.evaOfRoute[r]!;
  const egress = problem.activities + 2 * e;
  const outS = lengthS[egress]! + legs[lander * places + beginsAt[activity]!]!;
  const homeS = lengthS[egress + 1]! + legs[endsAt[activity]! * places + lander]! + lengthS[activity]!;
  const starts: number[] = [];
  for (let g = problem.gapStart[e]!; g < problem.gapStart[e + 1]!; g += 1)
    starts.push(problem.gapFromS[g]! + outS, problem.gapToS[g]! - homeS);
  return starts;
}

/** Farther than any plan. */
const FAR_S = 600_000_000;
