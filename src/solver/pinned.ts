import type { Problem } from "./problem.ts";

/** An activity held at its start and with its crew. */
export interface Hold {
  readonly activity: number;
  readonly choice: number;
  readonly startS: number;
}

/**
 * The same problem with activities held, each with its one crew choice: at its start, or from its start on. The choice numbers
 * of a held problem are its own.
 */
export function held(problem: Problem, holds: readonly Hold[], how: "at" | "from"): Problem {
  const by = new Map(holds.map((hold) => [hold.activity, hold]));
  const openFromS: number[] = [];
  const openToS: number[] = [];
  const openStart = [0];
  const choiceAt: number[] = [];
  const choiceStart = [0];
  for (let a = 0; a < problem.activities; a += 1) {
    const hold = by.get(a);
    for (let k = problem.openStart[a]!; k < problem.openStart[a + 1]!; k += 1) {
      const fromS = problem.openFromS[k]!;
      const toS = problem.openToS[k]!;
      if (hold && (hold.startS > toS || (how === "at" && hold.startS < fromS))) continue;
      openFromS.push(hold ? Math.max(hold.startS, fromS) : fromS);
      openToS.push(hold && how === "at" ? hold.startS : toS);
    }
    openStart.push(openFromS.length);
    for (let c = problem.choiceStart[a]!; c < problem.choiceStart[a + 1]!; c += 1)
      if (!hold || hold.choice === c) choiceAt.push(problem.choiceAt[c]!);
    choiceStart.push(choiceAt.length);
  }
  return {
    ...problem,
    openFromS: Int32Array.from(openFromS),
    openToS: Int32Array.from(openToS),
    openStart: Int32Array.from(openStart),
    choiceAt: Int32Array.from(choiceAt),
    choiceStart: Int32Array.from(choiceStart),
  };
}
