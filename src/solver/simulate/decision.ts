import { NEVER as NO_WAY } from "../problem/problem.ts";
import type { Certainty } from "./certainty.ts";
import type { DaySample } from "./days.ts";
import type { Lags } from "./lags.ts";
import type { Latest } from "./latest.ts";
import { LeaveOut } from "./leaveout.ts";
import type { Mending } from "./mending.ts";
import type { TodaysOpenings } from "./openings.ts";
import * as outcome from "./outcome.ts";
import type { Script } from "./script.ts";
import type { Today } from "./today.ts";

// Read in the innermost loops: local, as an import may cost a call there.
const NEVER = NO_WAY;
const { NEEDS, WINDOW, LAG, TURN_BACK, LEAVE_OUT } = outcome;

/** Whether a task is begun at all, by what is known of the day (O3, O4, O9). */
export class Decision {
  private readonly today: Today;
  private readonly script: Script;
  private readonly openings: TodaysOpenings;
  private readonly lags: Lags;
  private readonly mending: Mending;
  private readonly certainty: Certainty;
  private readonly leaveOut: LeaveOut;

  constructor(
    today: Today,
    openings: TodaysOpenings,
    lags: Lags,
    mending: Mending,
    certainty: Certainty,
    latest: Latest,
  ) {
    this.today = today;
    this.script = today.script;
    this.openings = openings;
    this.lags = lags;
    this.mending = mending;
    this.certainty = certainty;
    this.leaveOut = new LeaveOut(today, latest, certainty);
  }

  /** The route of a walker of `a` from whom no way leads to it; -1 where all can come. */
  strandedOf(a: number): number {
    const { problem, laneOf } = this.script;
    const { places, beginsAt, legS } = problem;
    const { place } = this.today.suits;
    const first = problem.slotStart[a]!;
    const crewEnd = first + problem.crewCount[a]!;
    for (let s = first; s < crewEnd; s += 1) {
      const r = laneOf[s]!;
      if (legS[r]![place[r]! * places + beginsAt[a]!]! >= NEVER) return r;
    }
    return -1;
  }

  /**
   * The first reason by which `a`, which could begin at `startS` at the earliest (Infinity: in no window any more), is not begun at all,
   * and in the certainty when that was certain; 0 without one.
   */
  against(a: number, startS: number, draws: DaySample): number {
    const { script, certainty, openings, lags } = this;
    const { problem } = script;
    let reason = 0;
    certainty.decidedS = Infinity;
    const goneS = this.mending.needsGoneS(a, draws);
    if (startS >= goneS) {
      certainty.decidedS = goneS;
      reason = NEEDS;
    }
    if (certainty.decides(a, startS, openings.lastS(a), -Infinity)) reason = WINDOW;
    if (problem.pet && problem.crewCount[a]! > 0) {
      const outS = openings.outS(a);
      const lastS = outS + problem.pet.toS[a]! - problem.lengthS[a]!;
      if (certainty.decides(a, startS, lastS, outS)) reason = WINDOW;
    }
    const lagS = lags.lastStartS(a, problem.lengthS[a]!);
    if (certainty.decides(a, startS, lagS, lags.knownS)) reason = LAG;
    if (this.turnsBack(a, startS, draws)) reason = TURN_BACK;
    const mayBeLeft = this.today.crew.leavesOut && script.needed[a] === 0;
    if (mayBeLeft && this.leaveOut.leavesOut(a, startS)) reason = LEAVE_OUT;
    return reason;
  }

  /** True when one of the crew of `a` could not do it and be home inside every limit (O4). */
  private turnsBack(a: number, startS: number, draws: DaySample): boolean {
    const { today, certainty } = this;
    const { problem, laneOf } = this.script;
    const first = problem.slotStart[a]!;
    const crewEnd = first + problem.crewCount[a]!;
    let turnsBack = false;
    for (let s = first; s < crewEnd; s += 1) {
      const r = laneOf[s]!;
      const goS = today.suits.lastStartS(a, r, draws.routeMore[r]!, today.limitOf(r));
      if (certainty.decidesFor(a, r, startS, goS)) turnsBack = true;
    }
    return turnsBack;
  }
}
