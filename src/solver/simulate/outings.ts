import type { DaySample } from "./days.ts";
import type { Script } from "./script.ts";
import type { Today } from "./today.ts";

/** Everybody goes out and comes home. */
export class Outings {
  private readonly today: Today;
  private readonly script: Script;

  constructor(today: Today) {
    this.today = today;
    this.script = today.script;
  }

  /** Egress of EVA `e`, after the ingress of those before it that have somebody or a suit in common. */
  open(e: number, draws: DaySample): void {
    const { today } = this;
    const { opened, closed, closeS } = today;
    const { problem, stage, before } = this.script;
    let egressS = this.script.egressS[e]!;
    for (const o of before[e]!) {
      if (opened[o] === 0) this.open(o, draws);
      if (closed[o] === 0) this.close(o, draws);
      egressS = Math.max(egressS, closeS[o]! + stage.leastPauseS);
    }
    opened[e] = 1;
    today.egressS[e] = egressS;
    const workS = problem.lengthS[problem.activities + 2 * e]!;
    for (let r = problem.routeStart[e]!; r < problem.routeStart[e + 1]!; r += 1) {
      today.beganS[r] = egressS;
      today.suits.egress(r, egressS, egressS + workS, draws.routeMore[r]!);
      today.pauseS[r] = egressS + workS;
    }
  }

  /** Everybody who is still out comes home. */
  closeAll(draws: DaySample): void {
    const { opened, closed } = this.today;
    const { problem, flown } = this.script;
    for (let e = 0; e < problem.evas; e += 1) {
      if (flown[e] === 0) continue;
      if (opened[e] === 0) this.open(e, draws);
      if (closed[e] === 0) this.close(e, draws);
    }
  }

  private close(e: number, draws: DaySample): void {
    const { problem } = this.script;
    const { suits, closeS: closesS, closed } = this.today;
    let backS = -Infinity;
    for (let r = problem.routeStart[e]!; r < problem.routeStart[e + 1]!; r += 1) {
      suits.walk(r, problem.lander, draws.routeMore[r]!);
      backS = Math.max(backS, suits.atS[r]!);
    }
    const closeS = backS + problem.lengthS[problem.activities + 2 * e + 1]!;
    for (let r = problem.routeStart[e]!; r < problem.routeStart[e + 1]!; r += 1)
      suits.ingress(r, backS, closeS, draws.routeMore[r]!);
    closesS[e] = closeS;
    closed[e] = 1;
  }
}
