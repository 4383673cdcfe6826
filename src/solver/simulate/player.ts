import type { CrewRules } from "../../answers/index.ts";
import { NEVER as NO_WAY } from "../problem/problem.ts";
import { CARRIES_ON } from "./crew.ts";
import { type DaySample, MENDABLE as CAN_BE_MENDED } from "./days.ts";
import { Latest } from "./latest.ts";
import type { Script } from "./script.ts";
import { Suits } from "./suits.ts";

// Read in the innermost loops: local, as an import may cost a call there.
const NEVER = NO_WAY;
const MENDABLE = CAN_BE_MENDED;

export const MISSED = 0;
export const DONE = 1;
/** Ended outside its window. */
const OVERRAN = 2;
/** Inside its window but a lag or a needed task failed. */
export const IN_VAIN = 3;
/** Begun and broken off. */
export const BROKEN_OFF = 4;
/** Worked at to its end, but something rare went wrong. */
const SPOILT = 5;

/** Why a task was not done. */
export const REASONS = [
  "none",
  "needs",
  "no way",
  "window",
  "lag",
  "turn-back",
  "left out",
  "broken off",
  "in vain",
  "rare event",
] as const;
const NONE = 0;
const NEEDS = 1;
const WAY = 2;
const WINDOW = 3;
const LAG = 4;
const TURN_BACK = 5;
const LEAVE_OUT = 6;
const BREAK_OFF = 7;
const VAIN = 8;
const RARE = 9;

const NOTHING: readonly number[] = [];

/** What stands in the middle of a day. */
export type Moment = readonly (Uint8Array | Int32Array | Float64Array)[];

/** Plays days over and over on the same arrays, by the rules of crew.ts. Read the outcome before the next day. */
export class Player {
  readonly script: Script;
  /** By activity: MISSED, DONE, OVERRAN, IN_VAIN, BROKEN_OFF or SPOILT, the reason, start and end; of what is missed the end is when that was certain. */
  readonly state: Uint8Array;
  readonly reason: Uint8Array;
  readonly startS: Float64Array;
  readonly endS: Float64Array;
  /** By EVA. */
  readonly egressS: Float64Array;
  readonly closeS: Float64Array;
  readonly suits: Suits;
  readonly latest: Latest;

  private crew: CrewRules;
  /** By activity: 1 where it was made good, at the end of what makes it good. */
  private readonly mended: Uint8Array;
  private readonly opened: Uint8Array;
  private readonly closed: Uint8Array;
  private readonly chainFreeS: Float64Array;
  /** By route: since when the walker has been at work without a rest, and since when they have had a pause. */
  private readonly beganS: Float64Array;
  private readonly pauseS: Float64Array;
  /** When the last decision against a task was certain. */
  private decidedS = 0;
  /** When the latest start by greatest lags was known. */
  private lagKnownS = 0;

  constructor(script: Script, crew: CrewRules, moments = 0) {
    const { problem } = script;
    this.script = script;
    this.crew = crew;
    this.state = new Uint8Array(problem.activities);
    this.reason = new Uint8Array(problem.activities);
    this.startS = new Float64Array(problem.activities);
    this.endS = new Float64Array(problem.activities);
    this.egressS = new Float64Array(problem.evas);
    this.closeS = new Float64Array(problem.evas);
    this.mended = new Uint8Array(problem.activities);
    this.suits = new Suits(script, moments);
    this.latest = new Latest(script);
    this.opened = new Uint8Array(problem.evas);
    this.closed = new Uint8Array(problem.evas);
    this.chainFreeS = new Float64Array(problem.chains);
    this.beganS = new Float64Array(problem.routes);
    this.pauseS = new Float64Array(problem.routes);
  }

  /** Call when the script has taken up another schedule, or to play with another crew. */
  take(crew: CrewRules = this.crew): void {
    this.crew = crew;
    if (crew.leavesOut) this.latest.workOut(this.script, crew.caution);
    this.suits.takeGrid((e) => this.limitS(e, this.script.egressS[e]!));
  }

  /** Ingress complete no later, with egress at `egressS`. */
  limitS(e: number, egressS: number): number {
    return Math.min(egressS + this.script.problem.longestS[e]!, this.script.latestS[e]!);
  }

  /** Ingress complete no later for the walker of route `r` today. */
  private limitOf(r: number): number {
    const e = this.script.problem.evaOfRoute[r]!;
    return this.limitS(e, this.egressS[e]!);
  }

  /** Plays one day. With `recording` the suits' grid is filled as well. */
  play(draws: DaySample, recording = false): void {
    this.begin(recording);
    this.playOn(draws, 0, this.script.order.length);
    this.end(draws);
  }

  /** Begins a day that is played part by part: `playOn` through the plan's order, then `end`. */
  begin(recording = false): void {
    this.suits.recording = recording;
    this.state.fill(MISSED);
    // Nothing of the day before is known.
    this.endS.fill(-Infinity);
    this.reason.fill(0);
    this.mended.fill(0);
    this.opened.fill(0);
    this.closed.fill(0);
    this.chainFreeS.fill(-Infinity);
  }

  /** Plays the activities at these positions of the plan's order. */
  playOn(draws: DaySample, from: number, to: number): void {
    const { problem, order, laneOf } = this.script;
    for (let p = from; p < to; p += 1) {
      const a = order[p]!;
      if (problem.crewCount[a]! > 0) {
        const e = problem.evaOfRoute[laneOf[problem.slotStart[a]!]!]!;
        if (this.opened[e] === 0) this.open(e, draws);
      }
      this.attempt(a, draws);
    }
  }

  /** Everybody comes home, and what was done in vain is counted. */
  end(draws: DaySample): void {
    const { problem, flown } = this.script;
    for (let e = 0; e < problem.evas; e += 1) {
      if (flown[e] === 0) continue;
      if (this.opened[e] === 0) this.open(e, draws);
      if (this.closed[e] === 0) this.close(e, draws);
    }
    this.countVain();
  }

  /** Room for what stands in the middle of a day. */
  moment(): Moment {
    return this.standing().map((one) => one.slice());
  }

  /** Keeps what stands now. */
  keep(moment: Moment): void {
    this.standing().forEach((one, i) => moment[i]!.set(one));
  }

  /**
   * Goes back to a moment of the same day that was kept. Starts and ends of what was attempted before it must not have
   * been written since: that is so when only what comes after it was played on.
   */
  goBack(moment: Moment): void {
    this.standing().forEach((one, i) => one.set(moment[i]!));
  }

  /** All that changes while a day is played, but for starts and ends and what is recorded. */
  private standing(): Moment {
    const { spare, atS, place } = this.suits;
    return [
      this.state,
      this.reason,
      this.mended,
      this.opened,
      this.closed,
      this.egressS,
      this.closeS,
      this.chainFreeS,
      this.beganS,
      this.pauseS,
      spare,
      atS,
      place,
    ];
  }

  private open(e: number, draws: DaySample): void {
    const { problem, stage, before } = this.script;
    let egressS = this.script.egressS[e]!;
    for (const o of before[e]!) {
      if (this.opened[o] === 0) this.open(o, draws);
      if (this.closed[o] === 0) this.close(o, draws);
      egressS = Math.max(egressS, this.closeS[o]! + stage.leastPauseS);
    }
    this.opened[e] = 1;
    this.egressS[e] = egressS;
    const workS = problem.lengthS[problem.activities + 2 * e]!;
    for (let r = problem.routeStart[e]!; r < problem.routeStart[e + 1]!; r += 1) {
      this.beganS[r] = egressS;
      this.suits.egress(r, egressS, egressS + workS, draws.routeMore[r]!);
      this.pauseS[r] = egressS + workS;
    }
  }

  private close(e: number, draws: DaySample): void {
    const { problem } = this.script;
    const { suits } = this;
    let backS = -Infinity;
    for (let r = problem.routeStart[e]!; r < problem.routeStart[e + 1]!; r += 1) {
      suits.walk(r, problem.lander, draws.routeMore[r]!);
      backS = Math.max(backS, suits.atS[r]!);
    }
    const closeS = backS + problem.lengthS[problem.activities + 2 * e + 1]!;
    for (let r = problem.routeStart[e]!; r < problem.routeStart[e + 1]!; r += 1)
      suits.ingress(r, backS, closeS, draws.routeMore[r]!);
    this.closeS[e] = closeS;
    this.closed[e] = 1;
  }

  /** True when `a` is begun when ready (O7): the planner did not fix its start, and somebody is there to begin it. */
  private goesAhead(a: number): boolean {
    const { problem, stage } = this.script;
    return this.crew.goesAhead && stage.pinned[a] === 0 && problem.crewCount[a]! > 0;
  }

  /** Does `a`, breaks it off, or leaves it out (O3 to O10). */
  private attempt(a: number, draws: DaySample): void {
    if (this.script.stage.given[a] === 1) return this.happened(a, draws);
    const stranded = this.strandedOf(a);
    if (stranded >= 0) return this.miss(a, this.suits.atS[stranded]!, WAY, draws);
    const startS = this.startInOpeningS(a, this.readyS(a), draws);
    const decision = this.decisionAgainst(a, startS, draws);
    if (decision === 0) this.work(a, startS, draws, this.closesS(a, startS));
    else this.miss(a, this.decidedS, decision, draws);
  }

  /** The route of a walker of `a` from whom no way leads to it; -1 where all can come. */
  private strandedOf(a: number): number {
    const { problem, laneOf } = this.script;
    const { places, beginsAt, legS } = problem;
    const first = problem.slotStart[a]!;
    const crewEnd = first + problem.crewCount[a]!;
    for (let s = first; s < crewEnd; s += 1) {
      const r = laneOf[s]!;
      if (legS[r]![this.suits.place[r]! * places + beginsAt[a]!]! >= NEVER) return r;
    }
    return -1;
  }

  /** When `a` is ready to begin, one condition after the other, but for openings, rests and what is made good (O3). */
  private readyS(a: number): number {
    const { script } = this;
    const { problem, laneOf } = script;
    const { slotStart, crewCount, routes } = problem;
    const first = slotStart[a]!;
    const crewEnd = first + crewCount[a]!;
    let readyS = this.goesAhead(a) ? -Infinity : script.planS[a]!;
    for (let s = first; s < crewEnd; s += 1) readyS = Math.max(readyS, this.hereS(a, laneOf[s]!));
    for (let s = crewEnd; s < slotStart[a + 1]!; s += 1)
      if (laneOf[s]! >= 0) readyS = Math.max(readyS, this.chainFreeS[laneOf[s]! - routes]!);
    readyS = Math.max(readyS, this.tiedS(a, problem.lengthS[a]!), this.togetherS(a));
    return problem.pet ? Math.max(readyS, this.outS(a) + problem.pet.fromS[a]!) : readyS;
  }

  /**
   * The first start of `a` in an opening from `readyS` on, when rests that are due have been taken and what it needs has been made good;
   * Infinity where no opening is left.
   */
  private startInOpeningS(a: number, readyS: number, draws: DaySample): number {
    const { openFromS } = this.script.stage;
    let startS = readyS;
    // Who has waited long enough by then needs no rest any more, so one look at each walker after another is not enough.
    for (;;) {
      const o = this.opening(a, startS);
      if (o < 0) return Infinity;
      startS = Math.max(startS, openFromS[o]!);
      let laterS = this.mendedS(a, startS, draws);
      if (this.crew.restsByRule) laterS = Math.max(laterS, this.restedS(a, startS));
      if (laterS === startS) return startS;
      startS = laterS;
    }
  }

  /** When the window closes in which `a` begins at `startS`; -Infinity where it begins in none. */
  private closesS(a: number, startS: number): number {
    const { openToS, likelyS } = this.script.stage;
    const o = this.opening(a, startS);
    return o < 0 ? -Infinity : Math.min(openToS[o]! + likelyS[a]!, this.overS(a));
  }

  /** `a` as it is known to have gone: nothing is decided any more. */
  private happened(a: number, draws: DaySample): void {
    const { crew } = this;
    const startS = this.script.planS[a]!;
    const closesS = this.closesS(a, startS);
    this.crew = CARRIES_ON;
    this.work(a, startS, draws, closesS);
    this.crew = crew;
  }

  /**
   * The first reason by which `a`, which could begin at `startS` at the earliest (Infinity: in no window any more), is not begun at all,
   * and in `decidedS` when that was certain; 0 without one. A last moment to begin is over when it has passed, or as soon as one of the
   * crew is free and cannot be there by then. What depends on how a walker fares is not certain before they are free.
   */
  private decisionAgainst(a: number, startS: number, draws: DaySample): number {
    const { script, suits, crew } = this;
    const { problem, laneOf } = script;
    const first = problem.slotStart[a]!;
    const crewEnd = first + problem.crewCount[a]!;
    let reason = 0;
    this.decidedS = Infinity;
    const goneS = this.needsGoneS(a, draws);
    if (startS >= goneS) {
      this.decidedS = goneS;
      reason = NEEDS;
    }
    if (this.decides(a, startS, this.lastOpeningS(a), -Infinity)) reason = WINDOW;
    if (problem.pet && crewEnd > first) {
      const outS = this.outS(a);
      const lastS = outS + problem.pet.toS[a]! - problem.lengthS[a]!;
      if (this.decides(a, startS, lastS, outS)) reason = WINDOW;
    }
    const lagS = this.lagS(a, problem.lengthS[a]!);
    if (this.decides(a, startS, lagS, this.lagKnownS)) reason = LAG;
    for (let s = first; s < crewEnd; s += 1) {
      const r = laneOf[s]!;
      const goS = suits.lastStartS(a, r, draws.routeMore[r]!, this.limitOf(r));
      if (this.decidesFor(a, r, startS, goS)) reason = TURN_BACK;
    }
    if (crew.leavesOut && script.needed[a] === 0 && this.leavesOut(a, startS)) reason = LEAVE_OUT;
    return reason;
  }

  /** Takes note that `a` cannot begin by `lastS`, which is known since `knownS`, if that was certain before anything else was. */
  private decides(a: number, startS: number, lastS: number, knownS: number): boolean {
    if (startS <= lastS) return false;
    const { problem, laneOf } = this.script;
    const first = problem.slotStart[a]!;
    const crewEnd = first + problem.crewCount[a]!;
    let certainS = Math.max(lastS, knownS);
    for (let s = first; s < crewEnd; s += 1) {
      const r = laneOf[s]!;
      if (this.hereS(a, r) > lastS) certainS = Math.min(certainS, Math.max(this.suits.atS[r]!, knownS));
    }
    if (certainS >= this.decidedS) return false;
    this.decidedS = certainS;
    return true;
  }

  /** The same where `lastS` is a matter of the walker of route `r`, known when they are free. */
  private decidesFor(a: number, r: number, startS: number, lastS: number): boolean {
    if (startS <= lastS) return false;
    const freeS = this.suits.atS[r]!;
    const certainS = this.hereS(a, r) > lastS ? freeS : lastS;
    if (certainS >= this.decidedS) return false;
    this.decidedS = certainS;
    return true;
  }

  /** When the walker of route `r` can be where `a` begins, going there straight. */
  private hereS(a: number, r: number): number {
    const { legS, places, beginsAt } = this.script.problem;
    return this.suits.atS[r]! + legS[r]![this.suits.place[r]! * places + beginsAt[a]!]!;
  }

  /** Does `a` from `startS` on, in a window that closes at `closesS`. */
  private work(a: number, startS: number, draws: DaySample, closesS: number): void {
    const { problem } = this.script;
    const rests = this.crew.restsByRule && problem.restful[a] === 0 && problem.crewCount[a]! > 0;
    this.gather(a, startS, draws);
    const ownEndS = this.workEndS(a, startS, draws, NOTHING, rests);
    const due = this.dueAt(a, ownEndS, draws);
    const workedS = due.length > 0 ? this.workEndS(a, startS, draws, due, rests) : ownEndS;
    const wholeEndS = this.lagEndS(a, workedS);
    // Making something good lies outside the window; who leaves while at it has done their own work.
    const overS = due.length > 0 ? ownEndS : wholeEndS;
    const leaveS = this.crew.breaksOff ? this.leaveS(a, wholeEndS, draws) : wholeEndS;
    const isBroken = leaveS < wholeEndS;
    const endS = isBroken ? Math.max(startS, Math.floor(leaveS)) : wholeEndS;
    this.leave(a, endS, isBroken ? this.fartherEnd(a) : problem.endsAt[a]!, draws);
    if (rests) this.restInside(a, startS, Math.min(endS, workedS));
    this.startS[a] = startS;
    this.endS[a] = endS;
    if (isBroken && endS < overS) this.conclude(a, BROKEN_OFF, BREAK_OFF);
    else if (draws.spoilt[a]! > 0) this.conclude(a, SPOILT, RARE);
    else this.concludeInTime(a, overS <= closesS);
    if (due.length > 0) this.makeGood(a, due, draws, rests, isBroken ? endS : Infinity, overS <= closesS);
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
    const startS = this.startS[a]!;
    let goodS = startS + draws.durationS[a]!;
    for (const b of due) {
      goodS += draws.remedyS[b]!;
      if ((rests ? this.restedEndS(a, startS, goodS) : goodS) > leaveS) return;
      this.concludeInTime(b, b !== a || isInTime);
      this.mended[b] = 1;
    }
  }

  private conclude(a: number, state: number, reason: number): void {
    this.state[a] = state;
    this.reason[a] = reason;
  }

  private concludeInTime(a: number, isInTime: boolean): void {
    if (isInTime) this.conclude(a, DONE, NONE);
    else this.conclude(a, OVERRAN, WINDOW);
  }

  /** The crew of `a` come to where it begins and wait for its start. */
  private gather(a: number, startS: number, draws: DaySample): void {
    const { problem, laneOf } = this.script;
    const first = problem.slotStart[a]!;
    const crewEnd = first + problem.crewCount[a]!;
    for (let s = first; s < crewEnd; s += 1) {
      const r = laneOf[s]!;
      this.walk(r, problem.beginsAt[a]!, draws.routeMore[r]!);
      if (startS - this.pauseS[r]! >= problem.limits.restS) this.beganS[r] = startS;
      this.suits.wait(r, startS, draws.routeMore[r]!);
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
    return rests ? this.restedEndS(a, startS, endS) : endS;
  }

  /** Who is done with `a` at `workedS`, before a least lag to the end has passed, stays until it has. */
  private lagEndS(a: number, workedS: number): number {
    const { ties, tieStart } = this.script.stage;
    let endS = workedS;
    for (let t = tieStart[a]!; t < tieStart[a + 1]!; t += 1)
      if (ties.toEnd[t] === 1) endS = Math.max(endS, this.endAfterS(t, a));
    return endS;
  }

  /** When the first of the crew of `a` has to leave it to be home inside every limit; `endS` where nobody has to before. */
  private leaveS(a: number, endS: number, draws: DaySample): number {
    const { problem, laneOf } = this.script;
    const first = problem.slotStart[a]!;
    const crewEnd = first + problem.crewCount[a]!;
    let leaveS = endS;
    for (let s = first; s < crewEnd; s += 1) {
      const r = laneOf[s]!;
      const byS = this.suits.leaveByS(a, r, draws.slotMore[s]!, draws.routeMore[r]!, this.limitOf(r));
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
    const { suits } = this;
    const { problem, laneOf } = this.script;
    const { slotStart, crewCount, restful, limits, routes } = problem;
    const first = slotStart[a]!;
    const crewEnd = first + crewCount[a]!;
    for (let s = first; s < crewEnd; s += 1) {
      const r = laneOf[s]!;
      suits.work(a, r, endS, draws.slotMore[s]!);
      suits.place[r] = place;
      if (restful[a] === 0) this.pauseS[r] = endS;
      else if (endS - this.pauseS[r]! >= limits.restS) this.beganS[r] = endS;
    }
    for (let s = crewEnd; s < slotStart[a + 1]!; s += 1)
      if (laneOf[s]! >= 0) this.chainFreeS[laneOf[s]! - routes] = endS;
  }

  /** What has gone wrong by `byS`, when the own work of `a` is up, and is made good at the end of `a` (O12). */
  private dueAt(a: number, byS: number, draws: DaySample): readonly number[] {
    const { stage, rank } = this.script;
    const list = stage.remediesAt[a]!;
    if (list.length === 0 || stage.given[a] === 1) return NOTHING;
    return list.filter((b) => {
      if (draws.spoilt[b] !== MENDABLE) return false;
      if (a === b) return true;
      return rank[b]! >= 0 && rank[b]! < rank[a]! && this.state[b] === SPOILT && this.endS[b]! <= byS;
    });
  }

  /**
   * `a` is missed, which was certain at `atS`: whoever was ready before has come to its place and waited there until then, but no
   * longer than the way home allows.
   */
  private miss(a: number, atS: number, reason: number, draws: DaySample): void {
    const { script, suits } = this;
    const { problem, laneOf } = script;
    const { slotStart, crewCount, beginsAt, routes } = problem;
    const first = slotStart[a]!;
    const crewEnd = first + crewCount[a]!;
    for (let s = first; s < crewEnd; s += 1) {
      const r = laneOf[s]!;
      if (suits.atS[r]! >= atS) continue;
      const more = draws.routeMore[r]!;
      const hereS = this.hereS(a, r);
      const stayS = Math.floor(suits.waitUntilS(r, beginsAt[a]!, hereS, more, this.limitOf(r)));
      if (stayS < hereS) continue;
      this.walk(r, beginsAt[a]!, more);
      const untilS = Math.min(stayS, atS);
      if (untilS - this.pauseS[r]! >= problem.limits.restS) this.beganS[r] = untilS;
      suits.wait(r, untilS, more);
    }
    // Units come free for the next one when it is known that nobody takes them here.
    for (let s = crewEnd; s < slotStart[a + 1]!; s += 1) {
      const lane = laneOf[s]! - routes;
      if (lane >= 0) this.chainFreeS[lane] = Math.max(this.chainFreeS[lane]!, atS);
    }
    this.endS[a] = atS;
    this.conclude(a, MISSED, reason);
  }

  /** Walks at once; a pause begins where the way ends. */
  private walk(r: number, to: number, more: number): void {
    const { suits } = this;
    const fromS = suits.atS[r]!;
    suits.walk(r, to, more);
    if (suits.atS[r]! > fromS) this.pauseS[r] = suits.atS[r]!;
  }

  /** When it was certain that something that `a` needs is not done (until then it may begin); Infinity while nothing is missing. */
  private needsGoneS(a: number, draws: DaySample): number {
    const { problem, rank, stage } = this.script;
    const needs = problem.needs[a]!;
    let gone = Infinity;
    for (let n = 0; n < needs.length; n += 1) {
      const b = needs[n]!;
      if (rank[b]! >= rank[a]! || this.state[b] === DONE) continue;
      let goneS = rank[b] === -1 ? -Infinity : this.endS[b]!;
      // Until the task at whose end it could be made good is over, it still may be.
      if (this.mayBeMended(b, a, draws)) goneS = Math.max(goneS, this.endS[stage.hostOf[b]!]!);
      gone = Math.min(gone, goneS);
    }
    return gone;
  }

  /** The start of `a`, which could begin at `startS`, once all that it needs and that has gone wrong by then is made good or no longer can be. */
  private mendedS(a: number, startS: number, draws: DaySample): number {
    const { problem, stage } = this.script;
    const needs = problem.needs[a]!;
    let mendedS = startS;
    for (let n = 0; n < needs.length; n += 1) {
      const b = needs[n]!;
      if (this.mayBeMended(b, a, draws) && startS >= this.endS[b]!)
        mendedS = Math.max(mendedS, this.endS[stage.hostOf[b]!]!);
    }
    return mendedS;
  }

  /** True when `b` has gone wrong so that it is made good, if at all, before `a` is attempted. */
  private mayBeMended(b: number, a: number, draws: DaySample): boolean {
    if (draws.spoilt[b] !== MENDABLE) return false;
    const { rank, stage } = this.script;
    const h = stage.hostOf[b]!;
    if (h < 0 || rank[b]! < 0 || rank[h]! <= rank[b]! || rank[h]! >= rank[a]!) return false;
    return this.state[b] === SPOILT || this.mended[b] === 1;
  }

  /** The start of `a`, which could begin at `startS`, that rests by the rule leave (O10). */
  private restedS(a: number, startS: number): number {
    const { problem, laneOf, stretchS } = this.script;
    const { workS, restS } = problem.limits;
    if (workS === Infinity || problem.restful[a] === 1) return startS;
    const first = problem.slotStart[a]!;
    const crewEnd = first + problem.crewCount[a]!;
    let restedS = startS;
    for (let s = first; s < crewEnd; s += 1) {
      const r = laneOf[s]!;
      const hereS = this.hereS(a, r);
      const pauseS = hereS > this.suits.atS[r]! ? hereS : this.pauseS[r]!;
      if (startS - pauseS < restS && startS + stretchS[s]! - this.beganS[r]! > workS)
        restedS = Math.max(restedS, pauseS + restS);
    }
    return restedS;
  }

  /** The end of `a`, from `startS` to `endS` without rests, with those that its crew takes inside it. */
  private restedEndS(a: number, startS: number, endS: number): number {
    const { workS, restS } = this.script.problem.limits;
    if (workS === Infinity || workS <= 0) return endS;
    let doneS = endS;
    for (let restAtS = this.firstRestS(a, startS); restAtS < doneS; restAtS += restS + workS) doneS += restS;
    return doneS;
  }

  /** The rests that were taken inside `a` until `endS`: stretches that began anew, and a rest that was broken into. */
  private restInside(a: number, startS: number, endS: number): void {
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

  /** When the first of the crew of `a`, begun at `startS`, has been at work for as long as the rule allows. */
  private firstRestS(a: number, startS: number): number {
    const { problem, laneOf } = this.script;
    const first = problem.slotStart[a]!;
    const crewEnd = first + problem.crewCount[a]!;
    let beganS = Infinity;
    for (let s = first; s < crewEnd; s += 1) beganS = Math.min(beganS, this.beganS[laneOf[s]!]!);
    return Math.max(startS, beganS + problem.limits.workS);
  }

  /** The earliest start after least lags; what is missed counts from when that was certain. */
  private tiedS(a: number, likelyS: number): number {
    const { stage, rank, planS } = this.script;
    const { ties, tieStart } = stage;
    let startS = -Infinity;
    for (let t = tieStart[a]!; t < tieStart[a + 1]!; t += 1) {
      const b = ties.from[t]!;
      if (ties.leastS[t] === -Infinity || rank[b] === -1) continue;
      const leastS = ties.leastS[t]! - (ties.toEnd[t] === 1 ? likelyS : 0);
      if (rank[b]! > rank[a]!) startS = Math.max(startS, this.afterPlanS(t, planS[a]!, leastS));
      else if (this.state[b] !== MISSED) startS = Math.max(startS, this.afterS(t, a, leastS));
      else startS = Math.max(startS, this.endS[b]!);
    }
    return startS;
  }

  /**
   * The moment `seconds` after what tie `t` counts from, of work that comes later in the plan's order: it is reckoned with as planned, and
   * nothing waits for it beyond its own planned moment `plannedS`.
   */
  private afterPlanS(t: number, plannedS: number, seconds: number): number {
    const { stage, planS, problem } = this.script;
    const b = stage.ties.from[t]!;
    const likelyS = stage.ties.fromEnd[t] === 1 ? problem.lengthS[b]! : 0;
    return Math.min(plannedS, planS[b]! + likelyS + seconds);
  }

  /**
   * The moment `seconds` after what tie `t` into `a` counts from; -Infinity while that has not happened. Nobody knows when work that is
   * under way will end: before it has, its likely end is reckoned with.
   */
  private afterS(t: number, a: number, seconds: number): number {
    const fromS = this.tieFromS(t, a);
    if (fromS === -Infinity || seconds >= 0) return fromS + seconds;
    const { stage, problem } = this.script;
    if (stage.ties.fromEnd[t] === 0) return fromS + seconds;
    const b = stage.ties.from[t]!;
    return Math.min(fromS, this.startS[b]! + problem.lengthS[b]! + seconds);
  }

  /** The end of `a` that its least lag by tie `t` to the end leaves, whatever is known of what that counts from. */
  private endAfterS(t: number, a: number): number {
    const { stage, rank, planS, problem } = this.script;
    const leastS = stage.ties.leastS[t]!;
    const later = rank[stage.ties.from[t]!]! > rank[a]! && stage.given[a] === 0 && leastS > -Infinity;
    return later ? this.afterPlanS(t, planS[a]! + problem.lengthS[a]!, leastS) : this.afterS(t, a, leastS);
  }

  /** The earliest start after the waits by which crew members stay together. */
  private togetherS(a: number): number {
    const holds = this.script.holdsInto.get(a);
    if (!holds || !this.crew.goesAhead) return -Infinity;
    let startS = -Infinity;
    for (const [b, seconds] of holds)
      startS = Math.max(startS, this.state[b] === MISSED ? this.endS[b]! : this.startS[b]! + seconds);
    return startS;
  }

  /** The latest start that greatest lags leave, and in `lagKnownS` when that was known. */
  private lagS(a: number, likelyS: number): number {
    const { stage, problem } = this.script;
    const { ties, tieStart } = stage;
    let lastS = Infinity;
    this.lagKnownS = -Infinity;
    for (let t = tieStart[a]!; t < tieStart[a + 1]!; t += 1) {
      if (ties.greatestS[t] === Infinity || this.tieFromS(t, a) === -Infinity) continue;
      const seconds = ties.greatestS[t]! - (ties.toEnd[t] === 1 ? likelyS : 0);
      const ownS = this.afterS(t, a, seconds);
      if (ownS >= lastS) continue;
      lastS = ownS;
      const b = ties.from[t]!;
      const likelyEndS = this.startS[b]! + problem.lengthS[b]!;
      const reckoned =
        ties.fromEnd[t] === 0 || (seconds < 0 && likelyEndS + seconds <= this.endS[b]! + seconds);
      this.lagKnownS = reckoned ? this.startS[b]! : this.endS[b]!;
    }
    return lastS;
  }

  /** The moment that tie `t` into `a` counts from; -Infinity while there is none. */
  private tieFromS(t: number, a: number): number {
    const { ties } = this.script.stage;
    const b = ties.from[t]!;
    if (this.state[b] === MISSED || b === a) return -Infinity;
    return ties.fromEnd[t] === 1 ? this.endS[b]! : this.startS[b]!;
  }

  /** The first opening in which the likely time still fits, of those that may be begun in (O7); -1 when none is left. */
  private opening(a: number, startS: number): number {
    const { stage, planS } = this.script;
    const { openStart, openToS } = stage;
    for (let o = openStart[a]!; o < openStart[a + 1]!; o += 1)
      if (startS <= openToS[o]! && (!this.crew.goesAhead || openToS[o]! >= planS[a]!)) return o;
    return -1;
  }

  /** When the window from egress of `a` is over today; Infinity without one. */
  private overS(a: number): number {
    const { pet, crewCount } = this.script.problem;
    return pet && crewCount[a]! > 0 ? this.outS(a) + pet.toS[a]! : Infinity;
  }

  /** Egress of the EVA of `a`, which has been by now; of work without crew -Infinity, which nothing counts from. */
  private outS(a: number): number {
    const { problem, laneOf } = this.script;
    if (problem.crewCount[a] === 0) return -Infinity;
    return this.egressS[problem.evaOfRoute[laneOf[problem.slotStart[a]!]!]!]!;
  }

  /** The latest start in any opening. */
  private lastOpeningS(a: number): number {
    const { openStart, openToS } = this.script.stage;
    return openStart[a + 1]! > openStart[a]! ? openToS[openStart[a + 1]! - 1]! : -Infinity;
  }

  /**
   * True when optional `a`, which could begin at `startS`, is left out because needed work ahead of its crew and units, or tied to it, could
   * no longer begin in time after it, though without it it still can (O9), and that was certain before anything else against it was.
   */
  private leavesOut(a: number, startS: number): boolean {
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
    const { script, latest } = this;
    const { stage, rank, needed } = script;
    const { ties } = stage;
    let holdsUp = false;
    for (const t of stage.tiesOutOf[a]!) {
      const later = ties.to[t]!;
      if (rank[later]! < rank[a]! || needed[later] === 0) continue;
      const ownS = ties.fromEnd[t] === 1 ? latest.lengthS[a]! : 0;
      if (this.decidesWith(startS, latest.startThrough(script, t) - ownS, allFreeS)) holdsUp = true;
    }
    return holdsUp;
  }

  /** When all of the crew of `a` are free; -Infinity without crew. */
  private allFreeS(a: number): number {
    const { problem, laneOf } = this.script;
    const first = problem.slotStart[a]!;
    const crewEnd = first + problem.crewCount[a]!;
    let freeS = -Infinity;
    for (let s = first; s < crewEnd; s += 1) freeS = Math.max(freeS, this.suits.atS[laneOf[s]!]!);
    return freeS;
  }

  /** True when after `a` the walker of route `r` would be late for needed `next`, and straight from where they are would not. */
  private holdsUpWalker(a: number, startS: number, r: number, next: number): boolean {
    const { latest, suits } = this;
    const { places, beginsAt, endsAt, legS } = this.script.problem;
    const dueS = latest.startS[next]!;
    const lastS = dueS - legS[r]![endsAt[a]! * places + beginsAt[next]!]! - latest.lengthS[a]!;
    const stillS = suits.atS[r]! + legS[r]![suits.place[r]! * places + beginsAt[next]!]!;
    return stillS <= dueS && this.decidesFor(a, r, startS, lastS);
  }

  /** The same of the unit of chain `lane`, which `next` takes once it and the crew of `a` are free. */
  private holdsUpUnit(a: number, startS: number, lane: number, next: number, allFreeS: number): boolean {
    const { latest } = this;
    const dueS = latest.startS[next]!;
    const freeS = Math.max(allFreeS, this.chainFreeS[lane - this.script.problem.routes]!);
    return freeS <= dueS && this.decidesWith(startS, dueS - latest.lengthS[a]!, freeS);
  }

  /** As `decidesFor`, where all that is known at `freeS` matters. */
  private decidesWith(startS: number, lastS: number, freeS: number): boolean {
    if (startS <= lastS || Math.max(lastS, freeS) >= this.decidedS) return false;
    this.decidedS = Math.max(lastS, freeS);
    return true;
  }

  /** O5: broken lags, then whatever needs what was not done. */
  private countVain(): void {
    const { order } = this.script;
    for (let p = 0; p < order.length; p += 1) {
      const a = order[p]!;
      if (this.state[a] === DONE && this.breaksLag(a)) this.conclude(a, IN_VAIN, VAIN);
    }
    for (let again = true; again;) {
      again = false;
      for (let p = 0; p < order.length; p += 1) {
        const a = order[p]!;
        if (this.state[a] !== DONE || !this.lacksNeed(a)) continue;
        this.conclude(a, IN_VAIN, VAIN);
        again = true;
      }
    }
  }

  /** True when a lag into `a` turned out broken; what was broken off counts from nothing. */
  private breaksLag(a: number): boolean {
    const { ties, tieStart } = this.script.stage;
    for (let t = tieStart[a]!; t < tieStart[a + 1]!; t += 1) {
      const fromS = this.tieFromS(t, a);
      if (fromS === -Infinity || this.state[ties.from[t]!] === BROKEN_OFF) continue;
      const lagS = (ties.toEnd[t] === 1 ? this.endS[a]! : this.startS[a]!) - fromS;
      if (lagS < ties.leastS[t]! || lagS > ties.greatestS[t]!) return true;
    }
    return false;
  }

  /** True when something that `a` needs was not done. */
  private lacksNeed(a: number): boolean {
    const needs = this.script.problem.needs[a]!;
    for (let n = 0; n < needs.length; n += 1) if (this.state[needs[n]!] !== DONE) return true;
    return false;
  }
}
