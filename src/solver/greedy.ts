import { random } from "../kernel/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import { compile } from "./problem/compile.ts";
import { Day } from "./network/day.ts";
import { scheduleOf } from "./network/placing.ts";
import type { Problem } from "./problem/problem.ts";
import type { Insertion } from "./search/insertion.ts";
import { Recreate } from "./search/recreate.ts";

/**
 * The baseline: plain greedy insertion. Of all activities that still fit, must-do ones first, the one with the most worth
 * per added minute goes on at its best place, until nothing fits. Same plan, same schedule.
 */
export function greedy(plan: Plan): Schedule {
  return scheduleOf(greedyDay(compile(plan)).board);
}

/** The baseline on a compiled problem. */
export function greedyDay(problem: Problem): Day {
  const day = new Day(problem);
  const recreate = new Recreate(day, random(0));
  const barred = new Uint8Array(problem.activities);
  for (;;) {
    const best = bestNext(day, recreate.insertion, barred);
    if (best < 0) return day;
    if (!recreate.place(best, 0)) barred[best] = 1;
  }
}

/** What goes on next: what is required before all else, then the most worth per added minute; -1 when nothing fits. */
function bestNext({ problem, board }: Day, insertion: Insertion, barred: Uint8Array): number {
  let best = -1;
  let bestRequired = false;
  let bestValue = -Infinity;
  for (let a = 0; a < problem.activities; a += 1) {
    if (board.placed[a] === 1 || barred[a] === 1 || !insertion.view(a, 0)) continue;
    const minutes = Math.max(1, insertion.leastCost()) / 60;
    const required = board.isRequired(a);
    const value = board.worthWith(a) / minutes;
    if (required === bestRequired ? value <= bestValue : bestRequired) continue;
    best = a;
    bestRequired = required;
    bestValue = value;
  }
  return best;
}
