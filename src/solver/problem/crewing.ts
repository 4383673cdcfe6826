import type { Problem } from "./problem.ts";
import { changed } from "./changed.ts";

/** `problem` with only those ways of crewing each activity that `keeps` is true of; nothing else changes. */
export function withChoices(problem: Problem, keeps: (activity: number, choice: number) => boolean): Problem {
  const choiceAt: number[] = [];
  const choiceStart = [0];
  for (let a = 0; a < problem.activities; a += 1) {
    for (let c = problem.choiceStart[a]!; c < problem.choiceStart[a + 1]!; c += 1)
      if (keeps(a, c)) choiceAt.push(problem.choiceAt[c]!);
    choiceStart.push(choiceAt.length);
  }
  return changed(problem, {
    choiceAt: Int32Array.from(choiceAt),
    choiceStart: Int32Array.from(choiceStart),
  });
}

/** The EVA of a way of crewing an activity; -1 for work without crew. */
export function evaOfChoice(
  { crewCount, evaOfRoute, choiceRoutes, choiceAt }: Problem,
  a: number,
  c: number,
): number {
  return crewCount[a] === 0 ? -1 : evaOfRoute[choiceRoutes[choiceAt[c]!]!]!;
}
