import type { Stage } from "../../simulate/stage.ts";
import type { Rest } from "./rest.ts";

/**
 * What is lost for certain when the present task of `rest` ends `lateS` late: itself where its window is over by then, of what is past whatever then
 * breaks a lag, and all that needs any of these. `startS` by activity, of the day as planned; egress is at `egressS`.
 */
export function spoiltBy(
  { problem, windowed, openStart, openFromS, openToS, ties }: Stage,
  { present, past }: Rest,
  startS: ReadonlyMap<number, number>,
  egressS: number,
  lateS: number,
): Set<number> {
  const spoilt = new Set<number>();
  const atS = startS.get(present)!;
  let open = windowed[present] === 0;
  for (let o = openStart[present]!; o < openStart[present + 1]!; o += 1)
    if (atS >= openFromS[o]! && atS + lateS <= openToS[o]!) open = true;
  const byS = egressS + (problem.pet?.toS[present] ?? Infinity);
  if (!open || atS + problem.lengthS[present]! + lateS > byS) spoilt.add(present);
  const endOf = (a: number): number => startS.get(a)! + problem.lengthS[a]! + (a === present ? lateS : 0);
  for (let t = 0; t < ties.from.length; t += 1) {
    const from = ties.from[t]!;
    const to = ties.to[t]!;
    if (past[from] === 0 || past[to] === 0) continue;
    const lagS =
      (ties.toEnd[t] === 1 ? endOf(to) : startS.get(to)!) -
      (ties.fromEnd[t] === 1 ? endOf(from) : startS.get(from)!);
    if (lagS < ties.leastS[t]! || lagS > ties.greatestS[t]!) spoilt.add(to);
  }
  for (const a of spoilt) for (const b of problem.neededBy[a]!) if (startS.has(b)) spoilt.add(b);
  return spoilt;
}
