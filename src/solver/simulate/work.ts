import type { DaySample } from "./days.ts";
import type { Lags } from "./lags.ts";
import type { Mending } from "./mending.ts";
import * as outcome from "./outcome.ts";
import type { Rests } from "./rests.ts";
import type { Script } from "./script.ts";
import type { Today } from "./today.ts";

// Read in the innermost loops: local, as an import may cost a call there.
const { MISSED, BROKEN_OFF, SPOILT, BREAK_OFF, RARE } = outcome;

const NOTHING: readonly number[] = [];

/** What the crew of a task do once it is decided: they do it, break it off (O8), make good what went wrong (O12), or miss it. */
export class Work {
  private readonly today: Today;
  private readonly script: Script;
  private readonly lags: Lags;
  private readonly rests: Rests;
  private readonly mending: Mending;

  constructor(today: Today, lags: Lags, rests: Rests, mending: Mending) {
    this.today = today;
    this.script = today.script;
    this.lags = lags;
    this.rests = rests;
    this.mending = mending;
  }

  /** Does `a` from `startS` on, in a window that closes at `closesS`. */
  work(a: number, startS: number, draws: DaySample, closesS: number): void {
    const { today } = this;
    const { crew } = today;
    const { problem } = this.script;
    const rests = crew.restsByRule && problem.restful[a] === 0 && problem.crewCount[a]! > 0;
    this.gather(a, startS, draws);
    const ownEndS = this.workEndS(a, startS, draws, NOTHING, rests);
    const due = this.mending.dueAt(a, ownEndS, draws);
    const workedS = due.length > 0 ? this.workEndS(a, startS, draws, due, rests) : ownEndS;
    const wholeEndS = this.lags.stayedS(a, workedS);
    // Making something good lies outside the window; who leaves while at it has done their own work.
    const overS = due.length > 0 ? ownEndS : wholeEndS;
    const leaveS = crew.breaksOff ? this.leaveS(a, wholeEndS, draws) : wholeEndS;
    const isBroken = leaveS < wholeEndS;
    const endS = isBroken ? Math.max(startS, Math.floor(leaveS)) : wholeEndS;
    this.leave(a, endS, isBroken ? this.fartherEnd(a) : problem.endsAt[a]!, draws);
    if (rests) this.rests.restInside(a, startS, Math.min(endS, workedS));
    today.startS[a] = startS;
    today.endS[a] = endS;
    if (isBroken && endS < overS) today.conclude(a, BROKEN_OFF, BREAK_OFF);
    else if (draws.spoilt[a]! > 0) today.conclude(a, SPOILT, RARE);
    else today.concludeInTime(a, overS <= closesS);
    if (due.length > 0) this.makeGood(a, due, draws, rests, isBroken ? endS : Infinity, overS <= closesS);
  }

  /**
   * `a` is missed, which was certain at `atS`: whoever was ready before has come to its place and waited there until then, but no
   * longer than the way home allows.
   */
  miss(a: number, atS: number, reason: number, draws: DaySample): void {
    const { script, today } = this;
    const { suits, chainFreeS } = today;
    const { problem, laneOf } = script;
    const { slotStart, crewCount, beginsAt, routes } = problem;
    const first = slotStart[a]!;
    const crewEnd = first + crewCount[a]!;
    for (let s = first; s < crewEnd; s += 1) {
      const r = laneOf[s]!;
      if (suits.atS[r]! >= atS) continue;
      const more = draws.routeMore[r]!;
      const hereS = today.hereS(a, r);
      const stayS = Math.floor(suits.waitUntilS(r, beginsAt[a]!, hereS, more, today.limitOf(r)));
      if (stayS < hereS) continue;
      today.walk(r, beginsAt[a]!, more);
      const untilS = Math.min(stayS, atS);
      this.rests.endPause(r, untilS);
      suits.wait(r, untilS, more);
    }
    // Units come free for the next one when it is known that nobody takes them here.
    for (let s = crewEnd; s < slotStart[a + 1]!; s += 1) {
      const lane = laneOf[s]! - routes;
      if (lane >= 0) chainFreeS[lane] = Math.max(chainFreeS[lane]!, atS);
    }
    today.endS[a] = atS;
    today.conclude(a, MISSED, reason);
  }

  /** After the own work of `a`, in its window or not, makes `due` good one after the other: those that are over by `leaveS`. */
  private makeGood(
    a: number,
    due: readonly number[],
    draws: DaySample,
    rests: boolean,
    leaveS: number,
    isInTime: boolean,
  ): void {
    const { today } = this;
    const startS = today.startS[a]!;
    let goodS = startS + draws.durationS[a]!;
    for (const b of due) {
      goodS += draws.remedyS[b]!;
      if ((rests ? this.rests.restedEndS(a, startS, goodS) : goodS) > leaveS) return;
      today.concludeInTime(b, b !== a || isInTime);
      today.mended[b] = 1;
    }
  }

  /** The crew of `a` come to where it begins and wait for its start. */
  private gather(a: number, startS: number, draws: DaySample): void {
    const { today } = this;
    const { problem, laneOf } = this.script;
    const first = problem.slotStart[a]!;
    const crewEnd = first + problem.crewCount[a]!;
    for (let s = first; s < crewEnd; s += 1) {
      const r = laneOf[s]!;
      today.walk(r, problem.beginsAt[a]!, draws.routeMore[r]!);
      this.rests.endPause(r, startS);
      today.suits.wait(r, startS, draws.routeMore[r]!);
    }
  }

  /** When `a` and the making good of `due` are over that begin at `startS`, with the rests inside them where the crew `rests`. */
  private workEndS(
    a: number,
    startS: number,
    draws: DaySample,
    due: readonly number[],
    rests: boolean,
  ): number {
    let endS = startS + draws.durationS[a]!;
    for (const b of due) endS += draws.remedyS[b]!;
    return rests ? this.rests.restedEndS(a, startS, endS) : endS;
  }

  /** When the first of the crew of `a` has to leave it to be home inside every limit; `endS` where nobody has to before. */
  private leaveS(a: number, endS: number, draws: DaySample): number {
    const { today } = this;
    const { problem, laneOf } = this.script;
    const first = problem.slotStart[a]!;
    const crewEnd = first + problem.crewCount[a]!;
    let leaveS = endS;
    for (let s = first; s < crewEnd; s += 1) {
      const r = laneOf[s]!;
      const byS = today.suits.leaveByS(a, r, draws.slotMore[s]!, draws.routeMore[r]!, today.limitOf(r));
      leaveS = Math.min(leaveS, byS);
    }
    return leaveS;
  }

  /** Where who breaks `a` off is taken to leave it: the farther of its ends from the lander. */
  private fartherEnd(a: number): number {
    const { problem, laneOf } = this.script;
    const { beginsAt, endsAt, places, lander } = problem;
    const legs = problem.legS[laneOf[problem.slotStart[a]!]!]!;
    const begins = beginsAt[a]!;
    const ends = endsAt[a]!;
    return legs[begins * places + lander]! > legs[ends * places + lander]! ? begins : ends;
  }

  /** The crew of `a` are done with it at `endS`, at `place`, and its units are free. */
  private leave(a: number, endS: number, place: number, draws: DaySample): void {
    const { suits, chainFreeS, pauseS } = this.today;
    const { problem, laneOf } = this.script;
    const { slotStart, crewCount, restful, routes } = problem;
    const first = slotStart[a]!;
    const crewEnd = first + crewCount[a]!;
    for (let s = first; s < crewEnd; s += 1) {
      const r = laneOf[s]!;
      suits.work(a, r, endS, draws.slotMore[s]!);
      suits.place[r] = place;
      if (restful[a] === 0) pauseS[r] = endS;
      else this.rests.endPause(r, endS);
    }
    for (let s = crewEnd; s < slotStart[a + 1]!; s += 1)
      if (laneOf[s]! >= 0) chainFreeS[laneOf[s]! - routes] = endS;
  }
}
