import type { Script } from "./script.ts";
import type { Today } from "./today.ts";

/**
 * When it is first certain that an activity is not begun. A last moment to begin is over when it has passed, or as soon as one of the
 * crew is free and cannot be there by then. What depends on how a walker fares is not certain before they are free.
 */
export class Certainty {
  /** When the first decision against the activity in hand was certain. */
  decidedS = 0;
  private readonly today: Today;
  private readonly script: Script;

  constructor(today: Today) {
    this.today = today;
    this.script = today.script;
  }

  /** Takes note that `a` cannot begin by `lastS`, which is known since `knownS`, if that was certain before anything else was. */
  decides(a: number, startS: number, lastS: number, knownS: number): boolean {
    if (startS <= lastS) return false;
    const { today } = this;
    const { problem, laneOf } = this.script;
    const first = problem.slotStart[a]!;
    const crewEnd = first + problem.crewCount[a]!;
    let certainS = Math.max(lastS, knownS);
    for (let s = first; s < crewEnd; s += 1) {
      const r = laneOf[s]!;
      if (today.hereS(a, r) > lastS) certainS = Math.min(certainS, Math.max(today.suits.atS[r]!, knownS));
    }
    if (certainS >= this.decidedS) return false;
    this.decidedS = certainS;
    return true;
  }

  /** The same where `lastS` is a matter of the walker of route `r`, known when they are free. */
  decidesFor(a: number, r: number, startS: number, lastS: number): boolean {
    if (startS <= lastS) return false;
    const freeS = this.today.suits.atS[r]!;
    const certainS = this.today.hereS(a, r) > lastS ? freeS : lastS;
    if (certainS >= this.decidedS) return false;
    this.decidedS = certainS;
    return true;
  }

  /** The same where all that is known at `freeS` matters. */
  decidesWith(startS: number, lastS: number, freeS: number): boolean {
    if (startS <= lastS || Math.max(lastS, freeS) >= this.decidedS) return false;
    this.decidedS = Math.max(lastS, freeS);
    return true;
  }
}
