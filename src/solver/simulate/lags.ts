import { BROKEN_OFF as BROKEN, MISSED as NOT_DONE } from "./outcome.ts";
import type { Script } from "./script.ts";
import type { Today } from "./today.ts";

// Read in the innermost loops: local, as an import may cost a call there.
const MISSED = NOT_DONE;
const BROKEN_OFF = BROKEN;

/** What lags and staying together leave of starts and ends today. */
export class Lags {
  /** When the latest start by greatest lags was known. */
  knownS = 0;
  private readonly today: Today;
  private readonly script: Script;
  private readonly state: Uint8Array;
  private readonly startS: Float64Array;
  private readonly endS: Float64Array;

  constructor(today: Today) {
    this.today = today;
    this.script = today.script;
    this.state = today.state;
    this.startS = today.startS;
    this.endS = today.endS;
  }

  /** The earliest start after least lags; what is missed counts from when that was certain. */
  tiedS(a: number, likelyS: number): number {
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

  /** The earliest start after the waits by which crew members stay together. */
  togetherS(a: number): number {
    const holds = this.script.holdsInto.get(a);
    if (!holds || !this.today.crew.goesAhead) return -Infinity;
    let startS = -Infinity;
    for (const [b, seconds] of holds)
      startS = Math.max(startS, this.state[b] === MISSED ? this.endS[b]! : this.startS[b]! + seconds);
    return startS;
  }

  /** The latest start that greatest lags leave, and in `knownS` when that was known. */
  lastStartS(a: number, likelyS: number): number {
    const { stage, problem } = this.script;
    const { ties, tieStart } = stage;
    let lastS = Infinity;
    this.knownS = -Infinity;
    for (let t = tieStart[a]!; t < tieStart[a + 1]!; t += 1) {
      if (ties.greatestS[t] === Infinity || this.fromS(t, a) === -Infinity) continue;
      const seconds = ties.greatestS[t]! - (ties.toEnd[t] === 1 ? likelyS : 0);
      const ownS = this.afterS(t, a, seconds);
      if (ownS >= lastS) continue;
      lastS = ownS;
      const b = ties.from[t]!;
      const likelyEndS = this.startS[b]! + problem.lengthS[b]!;
      const reckoned =
        ties.fromEnd[t] === 0 || (seconds < 0 && likelyEndS + seconds <= this.endS[b]! + seconds);
      this.knownS = reckoned ? this.startS[b]! : this.endS[b]!;
    }
    return lastS;
  }

  /** Who is done with `a` at `workedS`, before a least lag to the end has passed, stays until it has. */
  stayedS(a: number, workedS: number): number {
    const { ties, tieStart } = this.script.stage;
    let endS = workedS;
    for (let t = tieStart[a]!; t < tieStart[a + 1]!; t += 1)
      if (ties.toEnd[t] === 1) endS = Math.max(endS, this.endAfterS(t, a));
    return endS;
  }

  /** True when a lag into `a` turned out broken; what was broken off counts from nothing. */
  isBroken(a: number): boolean {
    const { ties, tieStart } = this.script.stage;
    for (let t = tieStart[a]!; t < tieStart[a + 1]!; t += 1) {
      const fromS = this.fromS(t, a);
      if (fromS === -Infinity || this.state[ties.from[t]!] === BROKEN_OFF) continue;
      const lagS = (ties.toEnd[t] === 1 ? this.endS[a]! : this.startS[a]!) - fromS;
      if (lagS < ties.leastS[t]! || lagS > ties.greatestS[t]!) return true;
    }
    return false;
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
    const fromS = this.fromS(t, a);
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

  /** The moment that tie `t` into `a` counts from; -Infinity while there is none. */
  private fromS(t: number, a: number): number {
    const { ties } = this.script.stage;
    const b = ties.from[t]!;
    if (this.state[b] === MISSED || b === a) return -Infinity;
    return ties.fromEnd[t] === 1 ? this.endS[b]! : this.startS[b]!;
  }
}
