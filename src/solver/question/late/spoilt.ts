import type { Stage } from "../../simulate/stage.ts";
import type { Remainder } from "./remainder.ts";

/**
 * What is lost for certain when the present task of `remainder` ends `lateS` late: itself where its window is over by then, of what is past whatever then
 * breaks a lag, and all that needs any of these. `startS` by activity, of the day as planned; egress is at `egressS`.
 */
export function spoiltBy(
  stage: Stage,
  { present, past }: Remainder,
  startS: ReadonlyMap<number, number>,
  egressS: number,
  lateS: number,
): Set<number> {
  const { problem, ties } = stage;
  const spoilt = new Set<number>();
  const atS = startS.get(present)!;
  const byS = egressS + (problem.pet?.toS[present] ?? Infinity);
  if (!isOpenFor(stage, present, atS, lateS) || atS + problem.lengthS[present]! + lateS > byS)
    spoilt.add(present);
  const atEndOf = (a: number, isEnd: boolean): number => {
    const endS = startS.get(a)! + problem.lengthS[a]! + (a === present ? lateS : 0);
    return isEnd ? endS : startS.get(a)!;
  };
  for (let t = 0; t < ties.from.length; t += 1) {
    const from = ties.from[t]!;
    const to = ties.to[t]!;
    if (past[from] === 0 || past[to] === 0) continue;
    const lagS = atEndOf(to, ties.toEnd[t] === 1) - atEndOf(from, ties.fromEnd[t] === 1);
    if (lagS < ties.leastS[t]! || lagS > ties.greatestS[t]!) spoilt.add(to);
  }
  for (const a of spoilt) for (const b of problem.neededBy[a]!) if (startS.has(b)) spoilt.add(b);
  return spoilt;
}

/** True when `a`, begun at `atS`, ends in its window even `lateS` late. */
function isOpenFor(stage: Stage, a: number, atS: number, lateS: number): boolean {
  const { windowed, openStart, openFromS, openToS } = stage;
  if (windowed[a] === 0) return true;
  for (let o = openStart[a]!; o < openStart[a + 1]!; o += 1)
    if (atS >= openFromS[o]! && atS + lateS <= openToS[o]!) return true;
  return false;
}
