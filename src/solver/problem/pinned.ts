import type { Opening } from "./openings.ts";
import { openingsFrom, openingsOfActivity } from "./starts.ts";
import type { Openings, Problem } from "./problem.ts";
import { changed } from "./changed.ts";

/** An activity pinned at its start and with its crew. */
export interface PinnedActivity {
  readonly activity: number;
  readonly choice: number;
  readonly startS: number;
}

/**
 * The same problem with activities pinned, each with its one crew choice: at its start, or from its start on. The choice numbers
 * of such a problem are its own.
 */
export function withPins(problem: Problem, pins: readonly PinnedActivity[], how: "at" | "from"): Problem {
  const by = new Map(pins.map((pin) => [pin.activity, pin]));
  const pinnedIn = (openings: Openings): Openings =>
    openingsFrom(
      Array.from({ length: problem.activities }, (_, a) => {
        const list = openingsOfActivity(openings, a);
        const pin = by.get(a);
        if (!pin) return list;
        return list.flatMap(({ fromS, toS }): Opening[] => {
          if (pin.startS > toS || (how === "at" && pin.startS < fromS)) return [];
          return [{ fromS: Math.max(pin.startS, fromS), toS: how === "at" ? pin.startS : toS }];
        });
      }),
    );
  const choiceAt: number[] = [];
  const choiceStart = [0];
  for (let a = 0; a < problem.activities; a += 1) {
    const pin = by.get(a);
    for (let c = problem.choiceStart[a]!; c < problem.choiceStart[a + 1]!; c += 1)
      if (!pin || pin.choice === c) choiceAt.push(problem.choiceAt[c]!);
    choiceStart.push(choiceAt.length);
  }
  return changed(problem, {
    windows: pinnedIn(problem.windows),
    ...pinnedIn(problem),
    choiceAt: Int32Array.from(choiceAt),
    choiceStart: Int32Array.from(choiceStart),
  });
}
