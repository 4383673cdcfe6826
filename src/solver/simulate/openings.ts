import type { Problem } from "../problem/problem.ts";
import type { Script } from "./script.ts";
import type { Stage } from "./stage.ts";
import type { Today } from "./today.ts";

/** The openings in which tasks may begin today, windows from egress among them. */
export class TodaysOpenings {
  private readonly today: Today;
  private readonly script: Script;
  private readonly stage: Stage;
  private readonly problem: Problem;

  constructor(today: Today) {
    this.today = today;
    this.script = today.script;
    this.stage = today.script.stage;
    this.problem = today.problem;
  }

  /** The first opening in which the likely time still fits, of those that may be begun in (O7); -1 when none is left. */
  opening(a: number, startS: number): number {
    const { planS } = this.script;
    const { openStart, openToS } = this.stage;
    for (let o = openStart[a]!; o < openStart[a + 1]!; o += 1)
      if (startS <= openToS[o]! && (!this.today.crew.goesAhead || openToS[o]! >= planS[a]!)) return o;
    return -1;
  }

  /** When the window closes in which `a` begins at `startS`; -Infinity where it begins in none. */
  closesS(a: number, startS: number): number {
    const { openToS, likelyS } = this.stage;
    const o = this.opening(a, startS);
    return o < 0 ? -Infinity : Math.min(openToS[o]! + likelyS[a]!, this.overS(a));
  }

  /** The latest start in any opening. */
  lastS(a: number): number {
    const { openStart, openToS } = this.stage;
    return openStart[a + 1]! > openStart[a]! ? openToS[openStart[a + 1]! - 1]! : -Infinity;
  }

  /** Egress of the EVA of `a`, which has been by now; of work without crew -Infinity, which nothing counts from. */
  outS(a: number): number {
    const { problem } = this;
    const { laneOf } = this.script;
    if (problem.crewCount[a] === 0) return -Infinity;
    return this.today.egressS[problem.evaOfRoute[laneOf[problem.slotStart[a]!]!]!]!;
  }

  /** When the window from egress of `a` is over today; Infinity without one. */
  private overS(a: number): number {
    const { pet, crewCount } = this.problem;
    return pet && crewCount[a]! > 0 ? this.outS(a) + pet.toS[a]! : Infinity;
  }
}
