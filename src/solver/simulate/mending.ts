import { MENDABLE as CAN_BE_MENDED, type DaySample } from "./days.ts";
import { DONE as IS_DONE, SPOILT as IS_SPOILT } from "./outcome.ts";
import type { Script } from "./script.ts";
import type { Today } from "./today.ts";

// Read in the innermost loops: local, as an import may cost a call there.
const MENDABLE = CAN_BE_MENDED;
const DONE = IS_DONE;
const SPOILT = IS_SPOILT;

const NOTHING: readonly number[] = [];

/** What has gone wrong today and may still be made good (O12), and what waits for it. */
export class Mending {
  private readonly script: Script;
  private readonly state: Uint8Array;
  private readonly endS: Float64Array;
  private readonly mended: Uint8Array;

  constructor({ script, state, endS, mended }: Today) {
    this.script = script;
    this.state = state;
    this.endS = endS;
    this.mended = mended;
  }

  /** What has gone wrong by `byS`, when the own work of `a` is up, and is made good at the end of `a`. */
  dueAt(a: number, byS: number, draws: DaySample): readonly number[] {
    const { stage, rank } = this.script;
    const list = stage.remediesAt[a]!;
    if (list.length === 0 || stage.given[a] === 1) return NOTHING;
    return list.filter((b) => {
      if (draws.spoilt[b] !== MENDABLE) return false;
      if (a === b) return true;
      return rank[b]! >= 0 && rank[b]! < rank[a]! && this.state[b] === SPOILT && this.endS[b]! <= byS;
    });
  }

  /** When it was certain that something that `a` needs is not done (until then it may begin); Infinity while nothing is missing. */
  needsGoneS(a: number, draws: DaySample): number {
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
  mendedS(a: number, startS: number, draws: DaySample): number {
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
}
