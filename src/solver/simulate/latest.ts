import type { Script } from "./script.ts";

/**
 * How late needed work may begin so that all needed work after it can still be done when every optional task ahead is left
 * out, at durations of likely and `caution` of what lies between likely and high. What O9 asks before optional work begins.
 *
 * Static: ways, EVA limits, windows and least lags of the plan as it stands; the last opening counts. Not in it: greatest
 * lags, rests to come, consumables (O4 and O8 see to those).
 */
export class Latest {
  /** Length that a task is taken to have, s. */
  readonly lengthS: Float64Array;
  /** Latest start, s; only of needed activities. */
  readonly startS: Float64Array;
  /** By slot: the next needed activity on the same route or unit; -1 where there is none. */
  readonly nextOf: Int32Array;
  private readonly ahead: Int32Array;

  constructor({ problem }: Script) {
    this.lengthS = new Float64Array(problem.activities);
    this.startS = new Float64Array(problem.activities);
    this.nextOf = new Int32Array(problem.slots);
    this.ahead = new Int32Array(problem.routes + problem.chains);
  }

  /** Works all out for the schedule that `script` has taken up. */
  workOut(script: Script, caution: number): void {
    const { stage, problem, order, laneOf, needed } = script;
    const { slotStart, lengthS, activities } = problem;
    const { highS } = stage;
    const { ahead, nextOf } = this;
    for (let a = 0; a < activities; a += 1)
      this.lengthS[a] = lengthS[a]! + Math.ceil(caution * (highS[a]! - lengthS[a]!));
    this.startS.fill(Infinity);
    ahead.fill(-1);
    for (let p = order.length - 1; p >= 0; p -= 1) {
      const a = order[p]!;
      const first = slotStart[a]!;
      for (let s = first; s < slotStart[a + 1]!; s += 1) nextOf[s] = laneOf[s]! < 0 ? -1 : ahead[laneOf[s]!]!;
      if (needed[a] === 0) continue;
      this.startS[a] = this.lastStartS(script, a);
      for (let s = first; s < slotStart[a + 1]!; s += 1) if (laneOf[s]! >= 0) ahead[laneOf[s]!] = a;
    }
  }

  /**
   * How late placed activity `a`, needed or not, may begin so that all needed work after it can still be done and its crew be in;
   * -Infinity where no opening is left, Infinity of work without crew that nothing bounds. Call after `workOut`.
   */
  lastStartS(script: Script, a: number): number {
    return this.lastInOpeningS(
      script,
      a,
      Math.min(this.lastOnLanesS(script, a), this.lastByTiesS(script, a)),
    );
  }

  /** How late `a` may begin for what comes next on the routes and units that it takes, and for its crew to be in. */
  private lastOnLanesS(script: Script, a: number): number {
    const { problem, laneOf } = script;
    const first = problem.slotStart[a]!;
    const crewEnd = first + problem.crewCount[a]!;
    const ownS = this.lengthS[a]!;
    let lastS = Infinity;
    for (let s = first; s < problem.slotStart[a + 1]!; s += 1) {
      const lane = laneOf[s]!;
      if (lane < 0) continue;
      const next = this.nextOf[s]!;
      if (s < crewEnd) lastS = Math.min(lastS, this.lastOnRouteS(script, a, lane, next));
      else if (next >= 0) lastS = Math.min(lastS, this.startS[next]! - ownS);
    }
    return lastS;
  }

  /** How late `a` may begin for the walker of route `r` to be in, inside its window from egress and in time for needed `next` (-1: nothing). */
  private lastOnRouteS(script: Script, a: number, r: number, next: number): number {
    const { problem } = script;
    const { places, lander, beginsAt, endsAt, lengthS, activities, pet } = problem;
    const e = problem.evaOfRoute[r]!;
    const legs = problem.legS[r]!;
    const row = endsAt[a]! * places;
    const limitS = Math.min(script.egressS[e]! + problem.longestS[e]!, script.latestS[e]!);
    const homeS = legs[row + lander]! + lengthS[activities + 2 * e + 1]!;
    let endS = limitS - homeS;
    if (pet) endS = Math.min(endS, script.egressS[e]! + pet.toS[a]!);
    if (next >= 0) endS = Math.min(endS, this.startS[next]! - legs[row + beginsAt[next]!]!);
    return endS - this.lengthS[a]!;
  }

  /** How late `a` may begin for least lags to needed work after it. */
  private lastByTiesS(script: Script, a: number): number {
    const { stage, rank, needed } = script;
    const { ties, tiesOutOf } = stage;
    let lastS = Infinity;
    for (const t of tiesOutOf[a]!) {
      const m = ties.to[t]!;
      if (needed[m] === 0 || rank[m]! <= rank[a]!) continue;
      const ownS = ties.fromEnd[t] === 1 ? this.lengthS[a]! : 0;
      lastS = Math.min(lastS, this.startThrough(script, t) - ownS);
    }
    return lastS;
  }

  /** The latest start of `a` in an opening that is no later than `lastS`; -Infinity where none is left. */
  private lastInOpeningS({ stage, problem }: Script, a: number, lastS: number): number {
    const { openStart, openFromS, openToS } = stage;
    const longerS = this.lengthS[a]! - problem.lengthS[a]!;
    for (let o = openStart[a + 1]! - 1; o >= openStart[a]!; o -= 1)
      if (openFromS[o]! <= lastS) return Math.min(lastS, openToS[o]! - longerS);
    return -Infinity;
  }

  /** The latest moment from which tie `t` still lets its later activity begin in time; Infinity where it does not hold that up. */
  startThrough({ stage }: Script, t: number): number {
    const { ties } = stage;
    const m = ties.to[t]!;
    if (ties.leastS[t] === -Infinity) return Infinity;
    return this.startS[m]! + (ties.toEnd[t] === 1 ? this.lengthS[m]! : 0) - ties.leastS[t]!;
  }
}
