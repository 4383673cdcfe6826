import type { CrewRules } from "../../answers/index.ts";
import type { Problem } from "../problem/problem.ts";
import * as outcome from "./outcome.ts";
import type { Script } from "./script.ts";
import { Suits } from "./suits.ts";

// Read in the innermost loops: local, as an import may cost a call there.
const { MISSED, DONE, OVERRAN, NONE, WINDOW } = outcome;

/** What stands in the middle of a day. */
export type Moment = readonly (Uint8Array | Int32Array | Float64Array)[];

/** A simulated day as far as it has come: what became of everything so far, and where everybody is. */
export class Today {
  readonly script: Script;
  readonly problem: Problem;
  crew: CrewRules;
  /** By activity: MISSED, DONE, OVERRAN, IN_VAIN, BROKEN_OFF or SPOILT, the reason, start and end; of what is missed the end is when that was certain. */
  readonly state: Uint8Array;
  readonly reason: Uint8Array;
  readonly startS: Float64Array;
  readonly endS: Float64Array;
  /** By EVA. */
  readonly egressS: Float64Array;
  readonly closeS: Float64Array;
  readonly opened: Uint8Array;
  readonly closed: Uint8Array;
  readonly suits: Suits;
  /** By activity: 1 where it was made good, at the end of what makes it good. */
  readonly mended: Uint8Array;
  readonly chainFreeS: Float64Array;
  /** By route: since when the walker has been at work without a rest, and since when they have had a pause. */
  readonly beganS: Float64Array;
  readonly pauseS: Float64Array;

  constructor(script: Script, crew: CrewRules, moments: number) {
    const { problem } = script;
    this.script = script;
    this.problem = problem;
    this.crew = crew;
    this.state = new Uint8Array(problem.activities);
    this.reason = new Uint8Array(problem.activities);
    this.startS = new Float64Array(problem.activities);
    this.endS = new Float64Array(problem.activities);
    this.egressS = new Float64Array(problem.evas);
    this.closeS = new Float64Array(problem.evas);
    this.mended = new Uint8Array(problem.activities);
    this.suits = new Suits(script, moments);
    this.opened = new Uint8Array(problem.evas);
    this.closed = new Uint8Array(problem.evas);
    this.chainFreeS = new Float64Array(problem.chains);
    this.beganS = new Float64Array(problem.routes);
    this.pauseS = new Float64Array(problem.routes);
  }

  /** Begins a day: nobody is out yet. With `recording` the suits' grid is filled as well. */
  begin(recording = false): void {
    this.suits.recording = recording;
    this.state.fill(MISSED);
    // Nothing of the day before is known.
    this.endS.fill(-Infinity);
    this.reason.fill(NONE);
    this.mended.fill(0);
    this.opened.fill(0);
    this.closed.fill(0);
    this.chainFreeS.fill(-Infinity);
  }

  /** Ingress complete no later, with egress at `egressS`. */
  limitS(e: number, egressS: number): number {
    return Math.min(egressS + this.problem.longestS[e]!, this.script.latestS[e]!);
  }

  /** Ingress complete no later for the walker of route `r` today. */
  limitOf(r: number): number {
    const e = this.problem.evaOfRoute[r]!;
    return this.limitS(e, this.egressS[e]!);
  }

  /** When the walker of route `r` can be where `a` begins, going there straight. */
  hereS(a: number, r: number): number {
    const { legS, places, beginsAt } = this.problem;
    return this.suits.atS[r]! + legS[r]![this.suits.place[r]! * places + beginsAt[a]!]!;
  }

  /** Walks at once; a pause begins where the way ends. */
  walk(r: number, to: number, more: number): void {
    const { suits } = this;
    const fromS = suits.atS[r]!;
    suits.walk(r, to, more);
    if (suits.atS[r]! > fromS) this.pauseS[r] = suits.atS[r]!;
  }

  conclude(a: number, state: number, reason: number): void {
    this.state[a] = state;
    this.reason[a] = reason;
  }

  concludeInTime(a: number, isInTime: boolean): void {
    if (isInTime) this.conclude(a, DONE, NONE);
    else this.conclude(a, OVERRAN, WINDOW);
  }

  /** Room for what stands in the middle of a day. */
  moment(): Moment {
    return this.standing().map((one) => one.slice());
  }

  /** Keeps what stands now. */
  keep(moment: Moment): void {
    this.standing().forEach((one, i) => moment[i]!.set(one));
  }

  /** Goes back to a moment of the same day that was kept: nothing that came after it is known any more. */
  goBack(moment: Moment): void {
    this.standing().forEach((one, i) => one.set(moment[i]!));
  }

  /** All that changes while a day is played, but for what is recorded. */
  private standing(): Moment {
    const { spare, atS, place } = this.suits;
    return [
      this.state,
      this.reason,
      this.startS,
      // Of what is not attempted yet as well: an end would say that it is known to be missed.
      this.endS,
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
}
