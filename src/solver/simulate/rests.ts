import type { Script } from "./script.ts";
import type { Today } from "./today.ts";

/** Rests by the rule (O10): before a task, inside one, and how long everybody has been at work since the last. */
export class Rests {
  private readonly today: Today;
  private readonly script: Script;
  private readonly beganS: Float64Array;
  private readonly pauseS: Float64Array;

  constructor(today: Today) {
    this.today = today;
    this.script = today.script;
    this.beganS = today.beganS;
    this.pauseS = today.pauseS;
  }

  /** The start of `a`, which could begin at `startS`, that rests by the rule leave. */
  restedS(a: number, startS: number): number {
    const { today } = this;
    const { problem, laneOf, stretchS } = this.script;
    const { workS, restS } = problem.limits;
    if (workS === Infinity || problem.restful[a] === 1) return startS;
    const first = problem.slotStart[a]!;
    const crewEnd = first + problem.crewCount[a]!;
    let restedS = startS;
    for (let s = first; s < crewEnd; s += 1) {
      const r = laneOf[s]!;
      const hereS = today.hereS(a, r);
      const pauseS = hereS > today.suits.atS[r]! ? hereS : this.pauseS[r]!;
      if (startS - pauseS < restS && startS + stretchS[s]! - this.beganS[r]! > workS)
        restedS = Math.max(restedS, pauseS + restS);
    }
    return restedS;
  }

  /** The end of `a`, from `startS` to `endS` without rests, with those that its crew takes inside it. */
  restedEndS(a: number, startS: number, endS: number): number {
    const { workS, restS } = this.script.problem.limits;
    if (workS === Infinity || workS <= 0) return endS;
    let doneS = endS;
    for (let restAtS = this.firstRestS(a, startS); restAtS < doneS; restAtS += restS + workS) doneS += restS;
    return doneS;
  }

  /** The rests that were taken inside `a` until `endS`: stretches that began anew, and a rest that was broken into. */
  restInside(a: number, startS: number, endS: number): void {
    const { problem, laneOf } = this.script;
    const { workS, restS } = problem.limits;
    if (workS === Infinity || workS <= 0) return;
    const first = problem.slotStart[a]!;
    const crewEnd = first + problem.crewCount[a]!;
    for (let restAtS = this.firstRestS(a, startS); restAtS < endS; restAtS += restS + workS)
      for (let s = first; s < crewEnd; s += 1) {
        const r = laneOf[s]!;
        if (restAtS + restS <= endS) this.beganS[r] = restAtS + restS;
        else this.pauseS[r] = restAtS;
      }
  }

  /** A stretch of work begins anew for the walker of route `r` when the pause until `untilS` is a rest. */
  endPause(r: number, untilS: number): void {
    if (untilS - this.pauseS[r]! >= this.script.problem.limits.restS) this.beganS[r] = untilS;
  }

  /** When the first of the crew of `a`, begun at `startS`, has been at work for as long as the rule allows. */
  private firstRestS(a: number, startS: number): number {
    const { problem, laneOf } = this.script;
    const first = problem.slotStart[a]!;
    const crewEnd = first + problem.crewCount[a]!;
    let beganS = Infinity;
    for (let s = first; s < crewEnd; s += 1) beganS = Math.min(beganS, this.beganS[laneOf[s]!]!);
    return Math.max(startS, beganS + problem.limits.workS);
  }
}
