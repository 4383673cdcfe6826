import { NEVER, type Problem } from "../problem/problem.ts";
import type { RouteClass } from "./routes.ts";
import { type Linear, linearised } from "./shares.ts";

/**
 * An upper bound on worth from crew time alone: tasks take people for as long as they last and for the shortest way in, and all EVAs together
 * have only so much of that. The most worth per second first, the last one in part (Dantzig 1957, Oper Res 5:266). With
 * `musts`, for days with every must-do task; rough, but there at once.
 */
export function crewTimeBound(problem: Problem, classes: readonly RouteClass[], musts: boolean): number {
  return boundOf(byCrewTime(problem, classes, musts), classes, musts);
}

/** The problem without shares for which crew time alone says least. */
export function byCrewTime(problem: Problem, classes: readonly RouteClass[], musts: boolean): Linear {
  return linearised(problem, (linear) => boundOf(linear, classes, musts));
}

function boundOf({ problem, more }: Linear, classes: readonly RouteClass[], musts: boolean): number {
  let leftS = 0;
  for (const { routes, outS, backByS, leaveS } of classes)
    leftS += routes.length * Math.max(0, Math.min(outS, backByS - leaveS));
  const takesS = shortestS(problem, classes);
  let worth = 0;
  const optional: number[] = [];
  for (let a = 0; a < problem.activities; a += 1) {
    if (takesS[a] === NEVER) continue;
    if (takesS[a] === 0 || (musts && problem.must[a] === 1)) {
      leftS -= takesS[a]!;
      worth += problem.worth[a]!;
    } else optional.push(a);
  }
  optional.sort((a, b) => problem.worth[b]! / takesS[b]! - problem.worth[a]! / takesS[a]!);
  for (const a of optional) {
    if (leftS <= 0) break;
    worth += problem.worth[a]! * Math.min(1, leftS / takesS[a]!);
    leftS -= takesS[a]!;
  }
  return more + Math.floor(worth + 1e-6);
}

/** By activity the least crew time it takes; NEVER where it can stand on no route. */
function shortestS(problem: Problem, classes: readonly RouteClass[]): Float64Array {
  const takesS = new Float64Array(problem.activities);
  for (let a = 0; a < problem.activities; a += 1) if (problem.crewCount[a]! > 0) takesS[a] = NEVER;
  for (const { count, activity, legS, lastsS } of classes)
    activity.forEach((a, j) => {
      let wayS = NEVER;
      for (let i = 0; i <= count; i += 1) if (i !== j) wayS = Math.min(wayS, legS[i * (count + 1) + j]!);
      takesS[a] = Math.min(takesS[a]!, problem.crewCount[a]! * (lastsS[j]! + wayS));
    });
  return takesS;
}
