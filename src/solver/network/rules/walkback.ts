import type { Board } from "../board.ts";
import type { Problem } from "../../problem/problem.ts";
import type { Propagation } from "../propagate.ts";
import { backS } from "./outing.ts";
import type { RuleAnswer } from "./rests.ts";

/**
 * walk-back-consumables. What is drawn until a moment is a sum over the route so far plus the rest rate times the time
 * since egress; so each moment bounds how long after egress it may be, and a later egress mends it.
 */
export function keepWayBack(
  board: Board,
  propagation: Propagation | null,
  r: number,
  egressS: number,
): RuleAnswer {
  const { problem } = board;
  const { draws } = problem;
  const e = problem.evaOfRoute[r]!;
  let latestS = egressS;
  for (let kind = 0; kind < problem.kinds; kind += 1) {
    if (draws.walkbackBinds[kind] === 0) continue;
    const k = r * problem.kinds + kind;
    // Draws only grow: what the end of the outing leaves for the dearest way back is enough at every moment.
    const outS = backS(board, e) + problem.lengthS[problem.activities + 2 * e + 1]! - egressS;
    const atEnd =
      draws.availableBack[k]! - board.drawn[r * problem.kinds + kind]! - draws.restRate[k]! * outS;
    if (atEnd >= draws.dearest[k]! || atEnd >= dearestOn(board, r, kind)) continue;
    const byS = earliestEgress(board, r, kind, egressS);
    if (byS === Infinity) return "fails";
    if (byS > latestS) latestS = byS;
  }
  if (latestS === egressS) return "holds";
  return propagation?.raise(problem.activities + 2 * e, latestS) ? "changed" : "fails";
}

/** The most of `kind` that a walk-back from anywhere on route `r` draws. */
function dearestOn(board: Board, r: number, kind: number): number {
  const { problem, next, nodeOf } = board;
  const { endsAt, beginsAt, activities, kinds } = problem;
  const home = problem.draws.home[r]!;
  let most = 0;
  let place = problem.lander;
  for (let s = next[board.head + r]!; ; s = next[s]!) {
    const node = nodeOf[s]!;
    const to = beginsAt[node]!;
    if (to !== place) most = Math.max(most, peakDraw(problem, r, kind, place, to));
    place = endsAt[node]!;
    most = Math.max(most, home[to * kinds + kind]!, home[place * kinds + kind]!);
    if (node < activities) most = Math.max(most, innerDraw(problem, r, kind, node));
    if (s === board.tail + r) return most;
  }
}

/** What the worst walk-back between the ends of a way draws; 0 where an end is the worst. */
function peakDraw(
  { draws, places, kinds }: Problem,
  r: number,
  kind: number,
  from: number,
  to: number,
): number {
  const peak = draws.peakAt[from * places + to]!;
  return peak < 0 ? 0 : draws.peak[r]![peak * kinds + kind]!;
}

/** As peakDraw, of a walk inside an activity. */
function innerDraw({ draws, routes, kinds }: Problem, r: number, kind: number, activity: number): number {
  return draws.inner[(activity * routes + r) * kinds + kind]!;
}

/** The earliest egress, not before `egressS`, with which `kind` carries every way back; Infinity when none does. */
function earliestEgress(board: Board, r: number, kind: number, egressS: number): number {
  const { problem, next, nodeOf, earliest } = board;
  const { lengthS, endsAt, beginsAt, places, draws, kinds } = problem;
  const e = problem.evaOfRoute[r]!;
  const legs = problem.legS[r]!;
  const legDraws = draws.leg[r]!;
  const home = draws.home[r]!;
  const tail = board.tail + r;
  const k = r * kinds + kind;
  const rest = draws.restRate[k]!;
  const airlockS = lengthS[problem.activities + 2 * e]!;
  /** What is left to walk back with but for resting since egress. */
  let left = draws.availableBack[k]! - draws.airlockRate[k]! * airlockS;
  let lateS = later(left, rest, airlockS);
  let atS = egressS + airlockS;
  let place = problem.lander;
  for (let s = next[board.head + r]!; ; s = next[s]!) {
    const node = nodeOf[s]!;
    const to = beginsAt[node]!;
    const cell = place * places + to;
    const arrivedS = atS + legs[cell]!;
    left -= legDraws[cell * kinds + kind]!;
    // The worst point of a way counts where it lies between the ends, against what is left at the end of the way.
    const peak = place === to ? 0 : peakDraw(problem, r, kind, place, to);
    const thereDraw = home[to * kinds + kind]!;
    lateS = Math.max(lateS, later(left - Math.max(peak, thereDraw), rest, arrivedS - egressS));
    const startS = s === tail ? backS(board, e) : earliest[node]!;
    lateS = Math.max(lateS, later(left - thereDraw, rest, startS - egressS));
    atS = startS + lengthS[node]!;
    if (s === tail) {
      left -= draws.airlockRate[k]! * lengthS[node]!;
      return egressS + Math.max(lateS, later(left, rest, atS - egressS));
    }
    left -= draws.task[(node * problem.routes + r) * kinds + kind]!;
    place = endsAt[node]!;
    // So does that of a walk inside a task.
    const inner = Math.max(innerDraw(problem, r, kind, node), home[place * kinds + kind]!);
    lateS = Math.max(lateS, later(left - inner, rest, atS - egressS));
  }
}

/** Seconds that egress must be later so that `outS` of rest draws no more than `left`; Infinity when that never helps. */
function later(left: number, rest: number, outS: number): number {
  if (left >= rest * outS) return 0;
  return rest === 0 || left < 0 ? Infinity : outS - Math.floor(left / rest);
}
