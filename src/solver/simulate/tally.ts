import { addedBy, lessOver, missingOver } from "../problem/groups.ts";
import { KINDS } from "../problem/problem.ts";
import type { DaySample } from "./days.ts";
import { DONE, IN_VAIN, REASONS } from "./outcome.ts";
import type { Player } from "./player.ts";
import type { Script } from "./script.ts";
import type { Counted } from "./seen.ts";

/** What is counted over many simulated days. */
export class Tally {
  readonly days: number;
  readonly columns: number;
  count = 0;
  /** Days in which everybody came home inside every limit, every must-do task was done, and both with nothing missed beside. */
  home = 0;
  must = 0;
  whole = 0;
  /** By activity: days in which it was done, in which it met its window; and by reason, of those in which it was not done. */
  readonly done: Int32Array;
  readonly missed: Int32Array;
  readonly inWindow: Int32Array;
  /** By activity: what the days would have counted more with it, summed over those in which it was not done. */
  readonly wanting: Float64Array;
  /** By EVA. */
  readonly closes: Int32Array;
  readonly evaWhole: Int32Array;
  readonly evaMust: Int32Array;
  readonly outLate: Int32Array;
  readonly needsMissed: Int32Array;
  readonly inTime: Int32Array;
  readonly inReserve: Int32Array;
  /** By day. */
  readonly good: Uint8Array;
  readonly worth: Float64Array;
  /** By EVA, then day. */
  readonly closeS: Float64Array;
  /** By day, then column of the player's grid: above the reserve. */
  readonly grid: Float32Array;
  /** By activity: its overrun times what the day lost, summed; what to suspect first. */
  readonly suspicion: Float64Array;
  private readonly plannedWorth: number;
  private readonly mustOnBench: boolean;
  /** By EVA, of the day in hand: nothing on it is missed, no must-do task is, nothing for what was missed on another. */
  private readonly evaIntact: Uint8Array;
  private readonly evaKept: Uint8Array;
  private readonly evaServed: Uint8Array;

  constructor(player: Player, days: number) {
    const { problem } = player.script;
    this.days = days;
    this.columns = player.suits.grid.length;
    this.done = new Int32Array(problem.activities);
    this.missed = new Int32Array(problem.activities * REASONS.length);
    this.inWindow = new Int32Array(problem.activities);
    this.wanting = new Float64Array(problem.activities);
    this.closes = new Int32Array(problem.evas);
    this.evaWhole = new Int32Array(problem.evas);
    this.evaMust = new Int32Array(problem.evas);
    this.outLate = new Int32Array(problem.evas);
    this.needsMissed = new Int32Array(problem.evas);
    this.inTime = new Int32Array(problem.evas);
    this.inReserve = new Int32Array(problem.evas * KINDS);
    this.good = new Uint8Array(days);
    this.worth = new Float64Array(days);
    this.closeS = new Float64Array(problem.evas * days);
    this.grid = new Float32Array(days * this.columns);
    this.suspicion = new Float64Array(problem.activities);
    this.evaIntact = new Uint8Array(problem.evas);
    this.evaKept = new Uint8Array(problem.evas);
    this.evaServed = new Uint8Array(problem.evas);
    this.plannedWorth = plannedWorth(player.script);
    this.mustOnBench = isMustOnBench(player.script);
  }

  /** Counts the day that `player` has just played, recorded. */
  add(player: Player, draws: DaySample): void {
    const day = this.count;
    const isWhole = this.countTasks(player);
    const isHome = this.countEvas(player);
    const isMustDone = !this.mustOnBench && keepsMusts(player);
    const isGood = isHome && isMustDone;
    if (isHome) this.home += 1;
    if (isMustDone) this.must += 1;
    if (isGood && isWhole) this.whole += 1;
    this.good[day] = isGood ? 1 : 0;
    this.worth[day] = worthOf(player);
    this.grid.set(player.suits.grid, day * this.columns);
    this.suspect(player, draws, isGood);
    this.count += 1;
  }

  /** Counts what was done, what was not, and why; true when nothing was missed. */
  private countTasks(player: Player): boolean {
    const { order, stage } = player.script;
    let isWhole = true;
    this.evaIntact.fill(1);
    this.evaKept.fill(1);
    this.evaServed.fill(1);
    for (let p = 0; p < order.length; p += 1) {
      const a = order[p]!;
      const state = player.state[a]!;
      if (state === DONE) this.done[a]! += 1;
      else {
        isWhole = false;
        this.countMissed(player, a);
      }
      if (stage.windowed[a] === 1 && (state === DONE || state === IN_VAIN)) this.inWindow[a]! += 1;
    }
    return isWhole;
  }

  /** Counts `a`, which was not done, and what that is to its EVA. */
  private countMissed(player: Player, a: number): void {
    const { problem } = player.script;
    this.missed[a * REASONS.length + player.reason[a]!]! += 1;
    this.wanting[a]! += addedBy(problem, (b) => isDone(player, b), a);
    const e = evaOf(player.script, a);
    if (e < 0) return;
    this.evaIntact[e] = 0;
    if (problem.must[a] === 1) this.evaKept[e] = 0;
    if (failedElsewhere(player, a, e)) this.evaServed[e] = 0;
  }

  /** Counts how the EVAs went; true when everybody came home inside every limit. */
  private countEvas(player: Player): boolean {
    const { problem, flown } = player.script;
    let isHome = true;
    for (let e = 0; e < problem.evas; e += 1) if (flown[e] === 1 && !this.countEva(player, e)) isHome = false;
    return isHome;
  }

  private countEva(player: Player, e: number): boolean {
    this.closeS[e * this.days + this.count] = player.closeS[e]!;
    const isInTime = closesInTime(player, e);
    const isHome = this.countReserves(player, e) && isInTime;
    if (isInTime) this.inTime[e]! += 1;
    if (isHome) this.closes[e]! += 1;
    if (isHome && this.evaIntact[e] === 1) this.evaWhole[e]! += 1;
    if (this.evaKept[e] === 1) this.evaMust[e]! += 1;
    if (this.evaServed[e] === 0) this.needsMissed[e]! += 1;
    if (player.egressS[e]! > player.script.egressS[e]!) this.outLate[e]! += 1;
    return isHome;
  }

  /** Counts the consumables of which nobody on EVA `e` went below the reserve; true for all of them. */
  private countReserves(player: Player, e: number): boolean {
    let isInReserve = true;
    for (let k = 0; k < KINDS; k += 1)
      if (keepsReserve(player, e, k)) this.inReserve[e * KINDS + k]! += 1;
      else isInReserve = false;
    return isInReserve;
  }

  /** The longer a task took on a day that lost something, the more it is suspected. */
  private suspect({ script }: Player, draws: DaySample, isGood: boolean): void {
    const { order, problem } = script;
    const worth = this.worth[this.count]!;
    const lost = (isGood ? 0 : 1) + (this.plannedWorth - worth) / Math.max(1, this.plannedWorth);
    if (lost <= 0) return;
    for (let p = 0; p < order.length; p += 1) {
      const a = order[p]!;
      this.suspicion[a]! += lost * (draws.durationS[a]! - problem.lengthS[a]!);
    }
  }

  /** What is counted so far, by which a run is held against others. */
  get counted(): Counted {
    const { count: days, home, must } = this;
    const worth = this.worth.subarray(0, days).reduce((sum, one) => sum + one, 0);
    return { days, home, must, worth };
  }

  /** True when on the day that `player` has just played everybody came home and every must-do task was done. */
  isGoodDay(player: Player): boolean {
    return !this.mustOnBench && keepsMusts(player) && allHome(player);
  }
}

/** EVA of placed activity `a`; -1 without crew. */
export function evaOf({ problem, laneOf }: Script, a: number): number {
  return problem.crewCount[a]! > 0 ? problem.evaOfRoute[laneOf[problem.slotStart[a]!]!]! : -1;
}

/** True when something that `a`, on EVA `e`, needs was not done on another EVA. */
function failedElsewhere({ script, state }: Player, a: number, e: number): boolean {
  const { problem, placed } = script;
  return problem.needs[a]!.some((b) => {
    const other = placed[b] === 1 ? evaOf(script, b) : -1;
    return other >= 0 && other !== e && state[b] !== DONE;
  });
}

/** True when everybody came home inside every limit on the day that `player` has just played. */
export function allHome(player: Player): boolean {
  const { problem, flown } = player.script;
  for (let e = 0; e < problem.evas; e += 1) {
    if (flown[e] === 0) continue;
    if (!closesInTime(player, e)) return false;
    for (let k = 0; k < KINDS; k += 1) if (!keepsReserve(player, e, k)) return false;
  }
  return true;
}

/** Worth of what was done on the day that `player` has just played. */
export function worthOf(player: Player): number {
  const { problem, order } = player.script;
  let worth = 0;
  for (let p = 0; p < order.length; p += 1)
    if (player.state[order[p]!] === DONE) worth += problem.worth[order[p]!]!;
  return problem.groups ? worth - lessOver(problem, (a) => isDone(player, a)) : worth;
}

/** Worth of the day as planned. */
export function plannedWorth({ problem, order, placed }: Script): number {
  const whole = order.reduce((sum, a) => sum + problem.worth[a]!, 0);
  return whole - lessOver(problem, (a) => placed[a] === 1);
}

/** True when a must-do task is on the bench, or too much of a group. */
export function isMustOnBench({ problem, placed }: Script): boolean {
  return (
    problem.must.some((must, a) => must === 1 && placed[a] === 0) ||
    missingOver(problem, (a) => placed[a] === 1) > 0
  );
}

function closesInTime(player: Player, e: number): boolean {
  return player.closeS[e]! <= player.limitS(e, player.egressS[e]!);
}

function keepsReserve(player: Player, e: number, k: number): boolean {
  const { routeStart } = player.script.problem;
  for (let r = routeStart[e]!; r < routeStart[e + 1]!; r += 1)
    if (player.suits.spare[r * KINDS + k]! < 0) return false;
  return true;
}

/** True when every placed must-do task was done, and enough of every group, on the day that `player` has just played. */
export function keepsMusts(player: Player): boolean {
  const { problem, order } = player.script;
  for (let p = 0; p < order.length; p += 1) {
    const a = order[p]!;
    if (problem.must[a] === 1 && player.state[a] !== DONE) return false;
  }
  return problem.groups === null || missingOver(problem, (a) => isDone(player, a)) === 0;
}

/** What is not placed keeps the state that it had in another schedule. */
function isDone({ script, state }: Player, a: number): boolean {
  return script.placed[a] === 1 && state[a] === DONE;
}
