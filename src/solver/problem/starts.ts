import { gridFrom, gridTo } from "../../kernel/index.ts";
import type { Task } from "../../plan/index.ts";
import { NEVER, type Openings, type Problem } from "./problem.ts";
import { firstsOf } from "./firsts.ts";
import type { Opening } from "./openings.ts";

/**
 * The starts of `task` that may be chosen inside `windows`: whole multiples of `gridS`, its pinned start and `givenS`, on the grid or
 * not. Ascending, apart, each stretch beginning and ending on the grid or one start long; what has no end keeps none.
 */
export function startsIn(windows: readonly Opening[], gridS: number, task: Task, givenS?: number): Opening[] {
  const exact = [task.pin?.startS, givenS].filter((atS) => atS !== undefined && atS % gridS !== 0);
  const off = [...new Set(exact as number[])].sort((a, b) => a - b);
  return windows.flatMap((window) => {
    const parts: Opening[] = [];
    let fromS = window.fromS;
    const until = (toS: number): void => {
      const first = fromS > -NEVER ? gridFrom(fromS, gridS) : fromS;
      const last = toS < NEVER ? gridTo(toS, gridS) : toS;
      if (first <= last) parts.push({ fromS: first, toS: last });
    };
    for (const atS of off) {
      if (atS < window.fromS || atS > window.toS) continue;
      until(atS);
      parts.push({ fromS: atS, toS: atS });
      fromS = atS;
    }
    until(window.toS);
    return parts;
  });
}

/** Lists of openings, one by activity, laid end to end. */
export function openingsFrom(lists: readonly (readonly Opening[])[]): Openings {
  const all = lists.flat();
  return {
    openStart: firstsOf(lists),
    openFromS: Int32Array.from(all, (one) => one.fromS),
    openToS: Int32Array.from(all, (one) => one.toS),
  };
}

/** The openings of activity `a` as a list. */
export function openingsOfActivity({ openStart, openFromS, openToS }: Openings, a: number): Opening[] {
  const list: Opening[] = [];
  for (let k = openStart[a]!; k < openStart[a + 1]!; k += 1)
    list.push({ fromS: openFromS[k]!, toS: openToS[k]! });
  return list;
}

/** True when `startS` lies in an opening of activity `a`. */
export function isOpen({ openStart, openFromS, openToS }: Openings, a: number, startS: number): boolean {
  for (let k = openStart[a]!; k < openStart[a + 1]!; k += 1)
    if (startS >= openFromS[k]! && startS <= openToS[k]!) return true;
  return false;
}

/** The first start of activity `a` at or after `atS` that may be chosen; null when there is none. */
export function nextStart(problem: Problem, a: number, atS: number): number | null {
  const { openStart, openFromS, openToS, gridS } = problem;
  for (let k = openStart[a]!; k < openStart[a + 1]!; k += 1)
    if (atS <= openToS[k]!) return atS > openFromS[k]! ? gridFrom(atS, gridS) : openFromS[k]!;
  return null;
}
