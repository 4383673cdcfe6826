import { KINDS as KIND_COUNT, NEVER as NO_WAY } from "../problem/problem.ts";
import type { Script } from "./script.ts";

// Read in the innermost loops: local, as an import may cost a call there.
const KINDS = KIND_COUNT;
const NEVER = NO_WAY;

/**
 * Everybody on their way through a simulated day: where they are, until when all is told, and what their suits have left above
 * the reserves. `more` is always the drawn work rate over the planned one, less one.
 */
export class Suits {
  /** By route and kind: above the reserve. */
  readonly spare: Float64Array;
  /** By route: told until then, and the place stood at. */
  readonly atS: Float64Array;
  readonly place: Int32Array;
  /** Moments at which spare amounts are read off, by EVA; as many for each. */
  readonly gridS: Float64Array;
  readonly gridCount: number;
  /** By route, kind and moment: above the reserve. Kept up to date only while recording. */
  readonly grid: Float64Array;
  recording = false;

  /** By route and kind, at the pace drawn for the day: a second of rest, and all of the ingress work. */
  private readonly restDraw: Float64Array;
  private readonly airlockDraw: Float64Array;
  private readonly script: Script;
  private readonly gridAt: Int32Array;
  /** By route and kind: what may be drawn below the reserve where reserves are only a warning: the reserve itself. */
  private readonly below: Float64Array;

  constructor(script: Script, gridCount: number) {
    const { problem } = script;
    this.script = script;
    this.gridCount = gridCount;
    this.spare = new Float64Array(problem.routes * KINDS);
    this.restDraw = new Float64Array(problem.routes * KINDS);
    this.airlockDraw = new Float64Array(problem.routes * KINDS);
    this.atS = new Float64Array(problem.routes);
    this.place = new Int32Array(problem.routes);
    this.gridS = new Float64Array(problem.evas * gridCount);
    this.grid = new Float64Array(problem.routes * KINDS * gridCount);
    this.gridAt = new Int32Array(problem.routes);
    const { reserve } = script.stage.rates;
    this.below = problem.plan.rules.reserve.level === "breach" ? new Float64Array(reserve.length) : reserve;
  }

  /** Sets the moments for a schedule newly taken up: from planned egress to the EVA's limit. */
  takeGrid(limitS: (eva: number) => number): void {
    const { flown, egressS, problem } = this.script;
    for (let e = 0; e < problem.evas && this.gridCount > 0; e += 1) {
      const fromS = egressS[e]!;
      const toS = flown[e] === 1 ? limitS(e) : 0;
      for (let g = 0; g < this.gridCount; g += 1)
        this.gridS[e * this.gridCount + g] =
          flown[e] === 1 ? fromS + Math.floor(((toS - fromS) * g) / Math.max(1, this.gridCount - 1)) : 0;
    }
  }

  /** Out of the hatch at `egressS` with full suits, at work there until `untilS`. */
  egress(r: number, egressS: number, untilS: number, more: number): void {
    const { stage, problem } = this.script;
    const { rates } = stage;
    const airlockS = problem.lengthS[problem.activities + 2 * problem.evaOfRoute[r]! + 1]!;
    for (let own = r * KINDS; own < (r + 1) * KINDS; own += 1) {
      this.spare[own] = rates.atEgress[own]! - rates.reserve[own]!;
      this.restDraw[own] = Math.ceil(rates.rest[own]! + rates.restMore[own]! * more);
      this.airlockDraw[own] = Math.ceil(rates.airlock[own]! + rates.airlockMore[own]! * more) * airlockS;
    }
    this.place[r] = problem.lander;
    this.gridAt[r] = 0;
    this.atS[r] = egressS;
    if (this.recording) this.readOff(r, egressS);
    this.spend(r, untilS, rates.airlock, rates.airlockMore, r * KINDS, more);
  }

  /** At the lander: waits for the others until `backS`, works at the hatch until `closeS`. */
  ingress(r: number, backS: number, closeS: number, more: number): void {
    const { rates } = this.script.stage;
    this.spend(r, backS, rates.rest, rates.restMore, r * KINDS, more);
    this.spend(r, closeS, rates.airlock, rates.airlockMore, r * KINDS, more);
    if (this.recording) this.readOff(r, Infinity);
  }

  /** Walks to a place at once. */
  walk(r: number, to: number, more: number): void {
    const { problem, stage } = this.script;
    if (this.place[r] === to) return;
    const cell = this.place[r]! * problem.places + to;
    const untilS = this.atS[r]! + problem.legS[r]![cell]!;
    this.spend(r, untilS, stage.rates.way[r]!, stage.rates.wayMore[r]!, cell * KINDS, more);
    this.place[r] = to;
  }

  /** Stands until `untilS`. */
  wait(r: number, untilS: number, more: number): void {
    const { rates } = this.script.stage;
    this.spend(r, untilS, rates.rest, rates.restMore, r * KINDS, more);
  }

  /** At work on `a` until `untilS`. */
  work(a: number, r: number, untilS: number, more: number): void {
    const { problem, stage } = this.script;
    this.spend(r, untilS, stage.rates.task, stage.rates.taskMore, (a * problem.routes + r) * KINDS, more);
  }

  /**
   * The latest start of `a` by which the walker of route `r`, working for the likely time at the planned rate and going home at their
   * own pace, is in inside every limit that binds (O4); -Infinity when no start is.
   */
  lastStartS(a: number, r: number, more: number, limitS: number): number {
    const { problem, stage, closeS } = this.script;
    const { places, lander, beginsAt, endsAt } = problem;
    const { rates } = stage;
    const e = problem.evaOfRoute[r]!;
    const outCell = this.place[r]! * places + beginsAt[a]!;
    const homeCell = endsAt[a]! * places + lander;
    const outS = problem.legS[r]![outCell]!;
    const homeS = problem.legS[r]![homeCell]!;
    if (homeS >= NEVER) return -Infinity;
    const likelyS = problem.lengthS[a]!;
    const airlockS = problem.lengthS[problem.activities + 2 * e + 1]!;
    // From the start to ingress complete.
    const restOfItS = likelyS + homeS + airlockS;
    let lastS = limitS - restOfItS;
    const hereS = this.atS[r]! + outS;
    // Waiting, here or at the lander, until the planned ingress is not spared by going early.
    const waitS = Math.max(0, closeS[e]! - restOfItS - hereS);
    const task = (a * problem.routes + r) * KINDS;
    for (let k = 0; k < KINDS; k += 1) {
      const own = r * KINDS + k;
      let free =
        this.spare[own]! + this.below[own]! - this.airlockDraw[own]! - rates.task[task + k]! * likelyS;
      if (outS > 0) free -= this.wayDraw(r, outCell, k, more) * outS;
      if (homeS > 0) free -= this.wayDraw(r, homeCell, k, more) * homeS;
      const rest = this.restDraw[own]!;
      if (free < rest * waitS) return -Infinity;
      if (rest > 0) lastS = Math.min(lastS, hereS + Math.floor(free / rest));
    }
    return lastS;
  }

  /**
   * The latest moment to leave `a`, at work since `startS`, for home: from the farther of its ends, at the own pace, so that every
   * limit that binds is kept (O8). `workMore` is how hard this work turned out.
   */
  leaveByS(a: number, r: number, workMore: number, more: number, limitS: number): number {
    const { problem, stage } = this.script;
    const { places, lander, beginsAt, endsAt } = problem;
    const legs = problem.legS[r]!;
    const from =
      legs[beginsAt[a]! * places + lander]! > legs[endsAt[a]! * places + lander]! ? beginsAt[a]! : endsAt[a]!;
    const { task, taskMore } = stage.rates;
    return this.homeByS(
      r,
      from,
      this.atS[r]!,
      task,
      taskMore,
      (a * problem.routes + r) * KINDS,
      workMore,
      more,
      limitS,
    );
  }

  /** The latest moment to stand until at `place`, reached at `hereS`, before going home. */
  waitUntilS(r: number, place: number, hereS: number, more: number, limitS: number): number {
    const { problem, stage } = this.script;
    const { rates } = stage;
    const cell = this.place[r]! * problem.places + place;
    const outS = hereS - this.atS[r]!;
    const own = r * KINDS;
    // As if the way out were drawn already.
    for (let k = 0; k < KINDS; k += 1) this.spare[own + k]! -= this.wayDraw(r, cell, k, more) * outS;
    const untilS = this.homeByS(r, place, hereS, rates.rest, rates.restMore, own, more, more, limitS);
    for (let k = 0; k < KINDS; k += 1) this.spare[own + k]! += this.wayDraw(r, cell, k, more) * outS;
    return untilS;
  }

  private wayDraw(r: number, cell: number, k: number, more: number): number {
    const { way, wayMore } = this.script.stage.rates;
    const at = cell * KINDS + k;
    return way[r]![at]! === 0 ? 0 : Math.ceil(way[r]![at]! + wayMore[r]![at]! * more);
  }

  /** The latest moment to leave for home from `place` when from `sinceS` on the suit draws at one rate. */
  private homeByS(
    r: number,
    place: number,
    sinceS: number,
    base: Float64Array,
    grows: Float64Array,
    at: number,
    rateMore: number,
    more: number,
    limitS: number,
  ): number {
    const { problem, closeS } = this.script;
    const e = problem.evaOfRoute[r]!;
    const homeCell = place * problem.places + problem.lander;
    const homeS = problem.legS[r]![homeCell]!;
    const airlockS = problem.lengthS[problem.activities + 2 * e + 1]!;
    let byS = limitS - airlockS - homeS;
    // Who leaves before this waits at the lander for the planned ingress.
    const inTimeS = closeS[e]! - homeS - airlockS;
    for (let k = 0; k < KINDS; k += 1) {
      const own = r * KINDS + k;
      const rate = Math.ceil(base[at + k]! + grows[at + k]! * rateMore);
      if (rate <= 0) continue;
      const rest = this.restDraw[own]!;
      let free = this.spare[own]! + this.below[own]! - this.airlockDraw[own]!;
      if (homeS > 0) free -= this.wayDraw(r, homeCell, k, more) * homeS;
      const straightS = sinceS + free / rate;
      if (straightS >= inTimeS) byS = Math.min(byS, straightS);
      // (t - since) rate + (inTime - t) rest <= free
      else if (rate > rest) byS = Math.min(byS, (free + sinceS * rate - inTimeS * rest) / (rate - rest));
      // Working is no dearer than waiting: leaving early saves nothing.
      else if (free < (inTimeS - sinceS) * rate) byS = Math.min(byS, sinceS);
    }
    return byS;
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
    if (this.recording) this.record(r, fromS, untilS, base, grows, at, more);
    for (let k = 0; k < KINDS; k += 1)
      spare[own + k]! -= Math.ceil(base[at + k]! + grows[at + k]! * more) * seconds;
    this.atS[r] = untilS;
  }

  private record(
    r: number,
    fromS: number,
    untilS: number,
    base: Float64Array,
    grows: Float64Array,
    at: number,
    more: number,
  ): void {
    const e = this.script.problem.evaOfRoute[r]! * this.gridCount;
    const own = r * KINDS;
    let g = this.gridAt[r]!;
    for (; g < this.gridCount && this.gridS[e + g]! <= untilS; g += 1)
      for (let k = 0; k < KINDS; k += 1)
        this.grid[(own + k) * this.gridCount + g] =
          this.spare[own + k]! -
          Math.ceil(base[at + k]! + grows[at + k]! * more) * (this.gridS[e + g]! - fromS);
    this.gridAt[r] = g;
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
}
