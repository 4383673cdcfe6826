import { KINDS as KIND_COUNT, NEVER as NO_WAY } from "../problem.ts";
import type { Script } from "./script.ts";

// Read in the innermost loops: local, as an import may cost a call there.
const KINDS = KIND_COUNT;
const NEVER = NO_WAY;

/**
 * How a simulated day is played. The crew follows the plan's order and takes what comes:
 *
 * - **O1** Every task takes a drawn time, whole seconds, rounded up. Every crew member's work rate in it is the planned one
 *   times a drawn factor; egress, ingress, walking and waiting share one factor for each crew member and EVA.
 * - **O2** Nobody starts before the planned start, and everybody keeps the planned order. A late start moves what
 *   follows only as far as it must: pauses in the plan, planned rests among them, make up for lost time.
 * - **O3** A task starts when all of its crew have walked there, its equipment is free, the least lags after what is done
 *   have passed and a window is open that is still long enough for the likely time. A pinned start is a planned start, no more.
 * - **O4** A task is missed, and its crew go on to their next one, when a task that it needs was missed, no such window is
 *   left, a greatest lag is over, or (turn-back) when after its likely time and the walk home at planned rates
 *   the EVA would close too late or a suit would be below a reserve (where reserves are a warning: out of a stock), waiting for
 *   the planned ingress included.
 *   Nobody leaves out an optional task for the sake of a must-do one still to come: that is what the shed order is for.
 * - **O5** A task that ends outside its window, or whose lags turn out broken, was done in vain: it counts as missed, and so
 *   does what needs it.
 * - **O6** An EVA begins as planned, or later when its crew are not yet recharged. It closes when all are back and the ingress
 *   work is done; who is back first waits at the lander. Egress, ingress and walking times are as planned.
 *
 * Not simulated: separation, rests that lost time eats up, stored heat, drinking water, walk-back on consumables, return mass, stores and faults.
 */
export const MISSED = 0;
export const DONE = 1;
/** Ended outside its window. */
export const OVERRAN = 2;
/** Inside its window but a lag or a needed task failed. */
export const IN_VAIN = 3;

/** What one simulated day is given: drawn durations by activity, factors less one by crew slot and by route. */
export interface Draws {
  readonly durationS: Int32Array;
  readonly slotMore: Float32Array;
  readonly routeMore: Float32Array;
}

/** What stands in the middle of a day. */
export type Moment = readonly (Uint8Array | Int32Array | Float64Array)[];

/** Plays days over and over on the same arrays. Read the outcome before the next day. */
export class Player {
  readonly script: Script;
  /** By activity: MISSED, DONE, OVERRAN or IN_VAIN, start and end. */
  readonly state: Uint8Array;
  readonly startS: Float64Array;
  readonly endS: Float64Array;
  /** By EVA. */
  readonly egressS: Float64Array;
  readonly closeS: Float64Array;
  /** By route and kind: above the reserve at the close. */
  readonly spare: Float64Array;
  /** Moments at which spare amounts are read off, by EVA; as many for each. */
  readonly gridS: Float64Array;
  readonly gridCount: number;
  /** By route, kind and moment: above the reserve. Kept up to date only while recording. */
  readonly grid: Float64Array;

  private readonly opened: Uint8Array;
  private readonly closed: Uint8Array;
  private readonly atS: Float64Array;
  private readonly place: Int32Array;
  private readonly gridAt: Int32Array;
  private readonly chainFreeS: Float64Array;
  private recording = false;

  constructor(script: Script, gridCount: number) {
    const { problem } = script;
    this.script = script;
    this.state = new Uint8Array(problem.activities);
    this.startS = new Float64Array(problem.activities);
    this.endS = new Float64Array(problem.activities);
    this.egressS = new Float64Array(problem.evas);
    this.closeS = new Float64Array(problem.evas);
    this.spare = new Float64Array(problem.routes * KINDS);
    this.gridCount = gridCount;
    this.gridS = new Float64Array(problem.evas * gridCount);
    this.grid = new Float64Array(problem.routes * KINDS * gridCount);
    this.opened = new Uint8Array(problem.evas);
    this.closed = new Uint8Array(problem.evas);
    this.atS = new Float64Array(problem.routes);
    this.place = new Int32Array(problem.routes);
    this.gridAt = new Int32Array(problem.routes);
    this.chainFreeS = new Float64Array(problem.chains);
    for (let e = 0; e < problem.evas; e += 1) {
      const fromS = script.evas.egressS[e]!;
      const toS = this.limitS(e, fromS);
      for (let g = 0; g < gridCount; g += 1)
        this.gridS[e * gridCount + g] =
          script.evas.flown[e] === 1
            ? fromS + Math.floor(((toS - fromS) * g) / Math.max(1, gridCount - 1))
            : 0;
    }
  }

  /** Ingress complete no later, with egress at `egressS`. */
  limitS(e: number, egressS: number): number {
    return Math.min(egressS + this.script.problem.longestS[e]!, this.script.evas.latestS[e]!);
  }

  /** Plays one day. With `recording` the grid is filled as well. */
  play(draws: Draws, recording: boolean): void {
    this.begin(recording);
    this.playOn(draws, 0, this.script.order.length);
    this.end(draws);
  }

  /** Begins a day that is played part by part: `playOn` through the plan's order, then `end`. */
  begin(recording = false): void {
    this.recording = recording;
    this.state.fill(MISSED);
    this.opened.fill(0);
    this.closed.fill(0);
    this.chainFreeS.fill(-Infinity);
  }

  /** Plays the activities at these positions of the plan's order. */
  playOn(draws: Draws, from: number, to: number): void {
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
  end(draws: Draws): void {
    const { problem, evas } = this.script;
    for (let e = 0; e < problem.evas; e += 1) {
      if (evas.flown[e] === 0) continue;
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
    return [
      this.state,
      this.opened,
      this.closed,
      this.egressS,
      this.closeS,
      this.spare,
      this.atS,
      this.place,
      this.chainFreeS,
    ];
  }

  private open(e: number, draws: Draws): void {
    const { problem, evas, rates } = this.script;
    let egressS = evas.egressS[e]!;
    for (let b = evas.beforeStart[e]!; b < evas.beforeStart[e + 1]!; b += 1) {
      const o = evas.before[b]!;
      if (this.opened[o] === 0) this.open(o, draws);
      if (this.closed[o] === 0) this.close(o, draws);
      egressS = Math.max(egressS, this.closeS[o]! + evas.leastPauseS);
    }
    this.opened[e] = 1;
    this.egressS[e] = egressS;
    const hatchS = problem.lengthS[problem.activities + 2 * e]!;
    for (let r = problem.routeStart[e]!; r < problem.routeStart[e + 1]!; r += 1) {
      for (let k = 0; k < KINDS; k += 1)
        this.spare[r * KINDS + k] = rates.atEgress[r * KINDS + k]! - rates.reserve[r * KINDS + k]!;
      this.place[r] = problem.lander;
      this.gridAt[r] = 0;
      this.atS[r] = egressS;
      if (this.recording) this.readOff(r, egressS);
      this.spend(r, egressS + hatchS, rates.hatch, rates.hatchMore, r * KINDS, draws.routeMore[r]!);
    }
  }

  private close(e: number, draws: Draws): void {
    const { problem, rates } = this.script;
    let backS = -Infinity;
    for (let r = problem.routeStart[e]!; r < problem.routeStart[e + 1]!; r += 1) {
      this.walk(r, problem.lander, draws.routeMore[r]!);
      backS = Math.max(backS, this.atS[r]!);
    }
    const closeS = backS + problem.lengthS[problem.activities + 2 * e + 1]!;
    for (let r = problem.routeStart[e]!; r < problem.routeStart[e + 1]!; r += 1) {
      const more = draws.routeMore[r]!;
      this.spend(r, backS, rates.rest, rates.restMore, r * KINDS, more);
      this.spend(r, closeS, rates.hatch, rates.hatchMore, r * KINDS, more);
      if (this.recording) this.readOff(r, Infinity);
    }
    this.closeS[e] = closeS;
    this.closed[e] = 1;
  }

  /** Does `a`, or leaves it out (O3 to O5). */
  private attempt(a: number, draws: Draws): void {
    const { script } = this;
    const { problem, laneOf } = script;
    const { slotStart, crewCount, places, beginsAt, routes } = problem;
    const needs = problem.needs[a]!;
    for (let n = 0; n < needs.length; n += 1)
      if (this.behind(needs[n]!, a) && this.state[needs[n]!] !== DONE) return;
    const first = slotStart[a]!;
    const crewEnd = first + crewCount[a]!;
    let startS = script.planS[a]!;
    for (let s = first; s < crewEnd; s += 1) {
      const r = laneOf[s]!;
      const legS = problem.legS[r]![this.place[r]! * places + beginsAt[a]!]!;
      if (legS >= NEVER) return;
      startS = Math.max(startS, this.atS[r]! + legS);
    }
    for (let s = crewEnd; s < slotStart[a + 1]!; s += 1)
      if (laneOf[s]! >= 0) startS = Math.max(startS, this.chainFreeS[laneOf[s]! - routes]!);
    const likelyS = problem.lengthS[a]!;
    const { ties, tieStart } = script;
    for (let t = tieStart[a]!; t < tieStart[a + 1]!; t += 1) {
      const fromS = this.tieFromS(t, a);
      if (fromS > -Infinity)
        startS = Math.max(startS, fromS + ties.leastS[t]! - (ties.toEnd[t] === 1 ? likelyS : 0));
    }
    const o = this.opening(a, startS);
    if (o < 0) return;
    startS = Math.max(startS, script.openFromS[o]!);
    for (let t = tieStart[a]!; t < tieStart[a + 1]!; t += 1) {
      const fromS = this.tieFromS(t, a);
      const toS = startS + (ties.toEnd[t] === 1 ? likelyS : 0);
      if (fromS > -Infinity && toS > fromS + ties.greatestS[t]!) return;
    }
    for (let s = first; s < crewEnd; s += 1) if (!this.mayGo(a, laneOf[s]!, startS + likelyS, startS)) return;

    let endS = startS + draws.durationS[a]!;
    // Who is done before a least lag to the end has passed stays until it has.
    for (let t = tieStart[a]!; t < tieStart[a + 1]!; t += 1)
      if (ties.toEnd[t] === 1) {
        const fromS = this.tieFromS(t, a);
        if (fromS > -Infinity) endS = Math.max(endS, fromS + ties.leastS[t]!);
      }
    const { rates } = script;
    for (let s = first; s < crewEnd; s += 1) {
      const r = laneOf[s]!;
      this.walk(r, beginsAt[a]!, draws.routeMore[r]!);
      this.spend(r, startS, rates.rest, rates.restMore, r * KINDS, draws.routeMore[r]!);
      const at = (a * problem.routes + r) * KINDS;
      this.spend(r, endS, rates.task, rates.taskMore, at, draws.slotMore[s]!);
      this.place[r] = problem.endsAt[a]!;
    }
    for (let s = crewEnd; s < slotStart[a + 1]!; s += 1)
      if (laneOf[s]! >= 0) this.chainFreeS[laneOf[s]! - routes] = endS;
    this.startS[a] = startS;
    this.endS[a] = endS;
    this.state[a] = endS <= script.openToS[o]! + likelyS ? DONE : OVERRAN;
  }

  /** True when `b` comes before `a` in the plan's order, so that its fate is known. */
  private behind(b: number, a: number): boolean {
    const { planS, placed } = this.script;
    return placed[b] === 0 || planS[b]! < planS[a]! || this.state[b] !== MISSED;
  }

  /** The moment that tie `t` into `a` counts from; -Infinity while there is none. */
  private tieFromS(t: number, a: number): number {
    const { ties } = this.script;
    const b = ties.from[t]!;
    if (this.state[b] === MISSED || b === a) return -Infinity;
    return ties.fromEnd[t] === 1 ? this.endS[b]! : this.startS[b]!;
  }

  /** The first opening in which the likely time still fits; -1 when none is left. */
  private opening(a: number, startS: number): number {
    const { openStart, openToS } = this.script;
    for (let o = openStart[a]!; o < openStart[a + 1]!; o += 1) if (startS <= openToS[o]!) return o;
    return -1;
  }

  /** Turn-back: true when after the likely time at `doneS` the way home still keeps every limit that binds (O4). */
  private mayGo(a: number, r: number, doneS: number, startS: number): boolean {
    const { problem, rates, evas } = this.script;
    const { places, lander, beginsAt, endsAt } = problem;
    const e = problem.evaOfRoute[r]!;
    const outCell = this.place[r]! * places + beginsAt[a]!;
    const homeCell = endsAt[a]! * places + lander;
    const outS = problem.legS[r]![outCell]!;
    const homeS = problem.legS[r]![homeCell]!;
    if (homeS >= NEVER) return false;
    const hatchS = problem.lengthS[problem.activities + 2 * e + 1]!;
    const closeS = doneS + homeS + hatchS;
    if (closeS > this.limitS(e, this.egressS[e]!)) return false;
    const spent = problem.plan.rules.reserve.level === "breach" ? 0 : 1;
    const waitS = startS - this.atS[r]! - outS + Math.max(0, evas.closeS[e]! - closeS);
    const task = (a * problem.routes + r) * KINDS;
    for (let k = 0; k < KINDS; k += 1) {
      const drawn =
        rates.way[r]![outCell * KINDS + k]! * outS +
        rates.rest[r * KINDS + k]! * waitS +
        rates.task[task + k]! * (doneS - startS) +
        rates.way[r]![homeCell * KINDS + k]! * homeS +
        rates.hatch[r * KINDS + k]! * hatchS;
      const kept = rates.reserve[r * KINDS + k]!;
      if (drawn > this.spare[r * KINDS + k]! + spent * kept) return false;
    }
    return true;
  }

  private walk(r: number, to: number, more: number): void {
    const { problem, rates } = this.script;
    const cell = this.place[r]! * problem.places + to;
    if (this.place[r] === to) return;
    this.spend(
      r,
      this.atS[r]! + problem.legS[r]![cell]!,
      rates.way[r]!,
      rates.wayMore[r]!,
      cell * KINDS,
      more,
    );
    this.place[r] = to;
  }

  /** Draws at one rate until `untilS`. */
  private spend(
    r: number,
    untilS: number,
    base: Float64Array,
    grows: Float64Array,
    at: number,
    more: number,
  ): void {
    const fromS = this.atS[r]!;
    const seconds = untilS - fromS;
    if (seconds <= 0) return;
    const { spare } = this;
    const own = r * KINDS;
    if (this.recording) {
      const e = this.script.problem.evaOfRoute[r]! * this.gridCount;
      let g = this.gridAt[r]!;
      for (; g < this.gridCount && this.gridS[e + g]! <= untilS; g += 1)
        for (let k = 0; k < KINDS; k += 1)
          this.grid[(own + k) * this.gridCount + g] =
            spare[own + k]! - Math.ceil(base[at + k]! + grows[at + k]! * more) * (this.gridS[e + g]! - fromS);
      this.gridAt[r] = g;
    }
    for (let k = 0; k < KINDS; k += 1)
      spare[own + k]! -= Math.ceil(base[at + k]! + grows[at + k]! * more) * seconds;
    this.atS[r] = untilS;
  }

  /** Reads the present amounts off for all moments up to `untilS`. */
  private readOff(r: number, untilS: number): void {
    const e = this.script.problem.evaOfRoute[r]! * this.gridCount;
    let g = this.gridAt[r]!;
    for (; g < this.gridCount && this.gridS[e + g]! <= untilS; g += 1)
      for (let k = 0; k < KINDS; k += 1)
        this.grid[(r * KINDS + k) * this.gridCount + g] = this.spare[r * KINDS + k]!;
    this.gridAt[r] = g;
  }

  /** O5: broken lags, then whatever needs what was not done. */
  private countVain(): void {
    const { problem, order, ties, tieStart } = this.script;
    for (let p = 0; p < order.length; p += 1) {
      const a = order[p]!;
      if (this.state[a] !== DONE) continue;
      for (let t = tieStart[a]!; t < tieStart[a + 1]!; t += 1) {
        const fromS = this.tieFromS(t, a);
        if (fromS === -Infinity) continue;
        const lag = (ties.toEnd[t] === 1 ? this.endS[a]! : this.startS[a]!) - fromS;
        if (lag < ties.leastS[t]! || lag > ties.greatestS[t]!) this.state[a] = IN_VAIN;
      }
    }
    for (let again = true; again;) {
      again = false;
      for (let p = 0; p < order.length; p += 1) {
        const a = order[p]!;
        if (this.state[a] !== DONE) continue;
        const needs = problem.needs[a]!;
        for (let n = 0; n < needs.length; n += 1)
          if (this.state[needs[n]!] !== DONE) {
            this.state[a] = IN_VAIN;
            again = true;
            break;
          }
      }
    }
  }
}
