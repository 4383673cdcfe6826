import type { Problem } from "./problem.ts";
import { changed } from "./changed.ts";

/** The same problem in which only the named tasks can be placed. Its choice numbers are its own. */
export function restricted(problem: Problem, ids: ReadonlySet<string>): Problem {
  const choiceAt: number[] = [];
  const choiceStart = [0];
  problem.plan.tasks.forEach((task, a) => {
    for (let c = problem.choiceStart[a]!; c < problem.choiceStart[a + 1]!; c += 1)
      if (ids.has(task.id)) choiceAt.push(problem.choiceAt[c]!);
    choiceStart.push(choiceAt.length);
  });
  return changed(problem, {
    choiceAt: Int32Array.from(choiceAt),
    choiceStart: Int32Array.from(choiceStart),
  });
}
