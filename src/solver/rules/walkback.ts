import type { Board } from "../board.ts";
import type { Propagation } from "../propagate.ts";
import { backS } from "./outing.ts";
import type { Answer } from "./rests.ts";

/**
 * walk-back-consumables. What is drawn until a moment is a sum over the route so far plus the rest rate times the time
 * since egress; so each moment bounds how long after egress it may be, and a later egress mends it.
 */
export function keepWayBack(
  board: Board,
  propagation: Propagation | null,
  r: number,
  egressS: number,
): Answer {
  const { problem } = board;
  const e = problem.evaOfRoute[r]!;
  const farthestS = farthestOn(board, r);
  let latestS = egressS;
  for (let kind = 0; kind < problem.kinds; kind += 1) {
    if (problem.draws.walkbackBinds[kind] === 0) continue;
    const k = r * problem.kinds + kind;
    // Draws only grow: what the end of the outing leaves for the farthest way back is enough at every moment.
    const outS = backS(board, e) + problem.lengthS[problem.activities + 2 * e + 1]! - egressS;
    const atEnd =
      problem.draws.availableBack[k]! -
      board.drawn[r * problem.kinds + kind]! -
      problem.draws.restRate[k]! * outS;
    if (atEnd >= problem.draws.walkbackRate[k]! * farthestS) continue;
    const byS = earliestEgress(board, r, kind, egressS);
    if (byS === Infinity) return "fails";
    if (byS > latestS) latestS = byS;
  }
  if (latestS === egressS) return "holds";
  return propagation?.raise(problem.activities + 2 * e, latestS) ? "changed" : "fails";
}

/** Longest walk-back from anywhere on route `r`, s. */
function farthestOn(board: Board, r: number): number {
  const { problem, next, nodeOf } = board;
  const { endsAt, beginsAt, places, homeS, peakS, ways } = problem;
  let farthestS = 0;
  let place = problem.lander;
  for (let s = next[board.head + r]!; ; s = next[s]!) {
    const node = nodeOf[s]!;
    const to = beginsAt[node]!;
    if (to !== place) farthestS = Math.max(farthestS, peakS[place * places + to]!, homeS[to]!);
    place = endsAt[node]!;
    farthestS = Math.max(farthestS, homeS[place]!);
    if (ways.trails && place !== to) farthestS = Math.max(farthestS, peakS[to * places + place]!);
    if (s === board.tail + r) return farthestS;
  }
}

/** The earliest egress, not before `egressS`, with which `kind` carries every way back; Infinity when none does. */
function earliestEgress(board: Board, r: number, kind: number, egressS: number): number {
  const { problem, next, nodeOf, earliest } = board;
  const { lengthS, endsAt, beginsAt, places, draws, homeS, peakS, kinds, ways } = problem;
  const e = problem.evaOfRoute[r]!;
  const legs = problem.legS[r]!;
  const legDraws = draws.leg[r]!;
  const tail = board.tail + r;
  const k = r * kinds + kind;
  const rest = draws.restRate[k]!;
  const back = draws.walkbackRate[k]!;
  const hatchS = lengthS[problem.activities + 2 * e]!;
  /** What is left to walk back with but for resting since egress. */
  let left = draws.availableBack[k]! - draws.hatchRate[k]! * hatchS;
  let lateS = later(left, rest, hatchS);
  let atS = egressS + hatchS;
  let place = problem.lander;
  for (let s = next[board.head + r]!; ; s = next[s]!) {
    const node = nodeOf[s]!;
    const to = beginsAt[node]!;
    const cell = place * places + to;
    const arrivedS = atS + legs[cell]!;
    left -= legDraws[cell * kinds + kind]!;
    // The worst point of a way counts where it lies between the ends, against what is left at the end of the way.
    const peak = place === to ? 0 : peakS[cell]!;
    const farS = peak > homeS[place]! && peak > homeS[to]! ? peak : homeS[to]!;
    lateS = Math.max(lateS, later(left - back * farS, rest, arrivedS - egressS));
    const startS = s === tail ? backS(board, e) : earliest[node]!;
    lateS = Math.max(lateS, later(left - back * homeS[to]!, rest, startS - egressS));
    atS = startS + lengthS[node]!;
    if (s === tail) {
      left -= draws.hatchRate[k]! * lengthS[node]!;
      return egressS + Math.max(lateS, later(left, rest, atS - egressS));
    }
    left -= draws.task[(node * problem.routes + r) * kinds + kind]!;
    place = endsAt[node]!;
    // So does that of a walk inside a task over a height grid.
    const inner = ways.trails && place !== to ? peakS[to * places + place]! : 0;
    const innerS = inner > homeS[place]! && inner > homeS[to]! ? inner : homeS[place]!;
    lateS = Math.max(lateS, later(left - back * innerS, rest, atS - egressS));
  }
}

/** Seconds that egress must be later so that `outS` of rest draws no more than `left`; Infinity when that never helps. */
function later(left: number, rest: number, outS: number): number {
  if (left >= rest * outS) return 0;
  return rest === 0 || left < 0 ? Infinity : outS - Math.floor(left / rest);
}
