import type { Certainty } from "./certainty.ts";
import type { Latest } from "./latest.ts";
import type { Script } from "./script.ts";
import type { Today } from "./today.ts";

/** Optional work that is left out for needed work ahead (O9). */
export class LeaveOut {
  private readonly today: Today;
  private readonly script: Script;
  private readonly latest: Latest;
  private readonly certainty: Certainty;

  constructor(today: Today, latest: Latest, certainty: Certainty) {
    this.today = today;
    this.script = today.script;
    this.latest = latest;
    this.certainty = certainty;
  }

  /**
   * True when optional `a`, which could begin at `startS`, is left out because needed work ahead of its crew and units, or tied to it, could
   * no longer begin in time after it, though without it it still can, and that was certain before anything else against it was.
   */
  leavesOut(a: number, startS: number): boolean {
    const allFreeS = this.allFreeS(a);
    // Both are asked: each takes note of when it was certain.
    const ahead = this.holdsUpNext(a, startS, allFreeS);
    const tied = this.holdsUpTied(a, startS, allFreeS);
    return ahead || tied;
  }

  /** True when `a` is left out for needed work that comes next for one of its crew or units. */
  private holdsUpNext(a: number, startS: number, allFreeS: number): boolean {
    const { problem, laneOf } = this.script;
    const first = problem.slotStart[a]!;
    const crewEnd = first + problem.crewCount[a]!;
    let holdsUp = false;
    for (let s = first; s < problem.slotStart[a + 1]!; s += 1) {
      const lane = laneOf[s]!;
      const next = lane < 0 ? -1 : this.latest.nextOf[s]!;
      if (next < 0) continue;
      const isWalker = s < crewEnd;
      if (isWalker && this.holdsUpWalker(a, startS, lane, next)) holdsUp = true;
      if (!isWalker && this.holdsUpUnit(a, startS, lane, next, allFreeS)) holdsUp = true;
    }
    return holdsUp;
  }

  /** True when `a` is left out for needed work that a least lag ties to it. */
  private holdsUpTied(a: number, startS: number, allFreeS: number): boolean {
    const { script, latest, certainty } = this;
    const { stage, rank, needed } = script;
    const { ties } = stage;
    let holdsUp = false;
    for (const t of stage.tiesOutOf[a]!) {
      const later = ties.to[t]!;
      if (rank[later]! < rank[a]! || needed[later] === 0) continue;
      const ownS = ties.fromEnd[t] === 1 ? latest.lengthS[a]! : 0;
      const lastS = latest.startThrough(script, t) - ownS;
      if (certainty.decidesWith(startS, lastS, allFreeS)) holdsUp = true;
    }
    return holdsUp;
  }

  /** When all of the crew of `a` are free; -Infinity without crew. */
  private allFreeS(a: number): number {
    const { problem, laneOf } = this.script;
    const { atS } = this.today.suits;
    const first = problem.slotStart[a]!;
    const crewEnd = first + problem.crewCount[a]!;
    let freeS = -Infinity;
    for (let s = first; s < crewEnd; s += 1) freeS = Math.max(freeS, atS[laneOf[s]!]!);
    return freeS;
  }

  /** True when after `a` the walker of route `r` would be late for needed `next`, and straight from where they are would not. */
  private holdsUpWalker(a: number, startS: number, r: number, next: number): boolean {
    const { latest, today, certainty } = this;
    const { places, beginsAt, endsAt, legS } = this.script.problem;
    const dueS = latest.startS[next]!;
    const lastS = dueS - legS[r]![endsAt[a]! * places + beginsAt[next]!]! - latest.lengthS[a]!;
    return today.hereS(next, r) <= dueS && certainty.decidesFor(a, r, startS, lastS);
  }

  /** The same of the unit of chain `lane`, which `next` takes once it and the crew of `a` are free. */
  private holdsUpUnit(a: number, startS: number, lane: number, next: number, allFreeS: number): boolean {
    const { latest, today, certainty } = this;
    const dueS = latest.startS[next]!;
    const freeS = Math.max(allFreeS, today.chainFreeS[lane - this.script.problem.routes]!);
    return freeS <= dueS && certainty.decidesWith(startS, dueS - latest.lengthS[a]!, freeS);
  }
}
