import type { Opening } from "./openings.ts";
import { openingsFrom, openingsOfActivity } from "./starts.ts";
import type { Openings, Problem } from "./problem.ts";
import { changed } from "./changed.ts";

/** An activity held at its start and with its crew. */
export interface PinnedActivity {
  readonly activity: number;
  readonly choice: number;
  readonly startS: number;
}

/**
 * The same problem with activities held, each with its one crew choice: at its start, or from its start on. The choice numbers
 * of a held problem are its own.
 */
export function held(problem: Problem, holds: readonly PinnedActivity[], how: "at" | "from"): Problem {
  const by = new Map(holds.map((hold) => [hold.activity, hold]));
  const heldIn = (openings: Openings): Openings =>
    openingsFrom(
      Array.from({ length: problem.activities }, (_, a) => {
        const list = openingsOfActivity(openings, a);
        const hold = by.get(a);
        if (!hold) return list;
        return list.flatMap(({ fromS, toS }): Opening[] => {
          if (hold.startS > toS || (how === "at" && hold.startS < fromS)) return [];
          return [{ fromS: Math.max(hold.startS, fromS), toS: how === "at" ? hold.startS : toS }];
        });
      }),
    );
  const choiceAt: number[] = [];
  const choiceStart = [0];
  for (let a = 0; a < problem.activities; a += 1) {
    const hold = by.get(a);
    for (let c = problem.choiceStart[a]!; c < problem.choiceStart[a + 1]!; c += 1)
      if (!hold || hold.choice === c) choiceAt.push(problem.choiceAt[c]!);
    choiceStart.push(choiceAt.length);
  }
  return changed(problem, {
    windows: heldIn(problem.windows),
    ...heldIn(problem),
    choiceAt: Int32Array.from(choiceAt),
    choiceStart: Int32Array.from(choiceStart),
  });
}
