import type { CrewRules } from "../../answers/index.ts";
import type { Schedule } from "../../plan/index.ts";
import type { Problem } from "../problem/problem.ts";
import { Count } from "./count.ts";
import type { Dealt, DaySample } from "./days.ts";
import { Player } from "./player.ts";
import { Script } from "./script.ts";
import type { Stage } from "./stage.ts";

/**
 * A day that is known up to a moment: what had begun by then (1 in `past`) was begun as planned and took as long as `problem` has it, at
 * the planned work rates, which stay known to everybody who went out. All else is drawn as on any day: nothing is concluded from the lateness.
 */
export interface Known {
  readonly problem: Problem;
  readonly past: Uint8Array;
}

/** Begins to count what `schedule` comes to from a known moment on, on `most` days from number `from` on. */
export function countFrom(
  stage: Stage,
  known: Known,
  schedule: Schedule,
  crew: CrewRules,
  days: Dealt,
  from: number,
  most: number,
): Count {
  const script = new Script({ ...stage, problem: known.problem, given: known.past });
  script.takeSchedule(schedule);
  const player = new Player(script, crew);
  player.take();
  const count = new Count(player, new KnownDays(known, days, from, most));
  count.begin();
  return count;
}

class KnownDays implements Dealt {
  readonly count: number;
  private readonly known: Known;
  private readonly days: Dealt;
  private readonly from: number;

  constructor(known: Known, days: Dealt, from: number, count: number) {
    this.known = known;
    this.days = days;
    this.from = from;
    this.count = count;
  }

  deal(day: number, order: Int32Array, laneOf: Int32Array, draws: DaySample): void {
    const { problem, past } = this.known;
    const { slotStart, crewCount, evaOfRoute, routeStart } = problem;
    this.days.deal(this.from + day, order, laneOf, draws);
    for (let p = 0; p < order.length; p += 1) {
      const a = order[p]!;
      if (past[a] === 0) continue;
      draws.durationS[a] = problem.lengthS[a]!;
      draws.spoilt[a] = 0;
      const first = slotStart[a]!;
      for (let s = first; s < first + crewCount[a]!; s += 1) {
        draws.slotMore[s] = 0;
        const e = evaOfRoute[laneOf[s]!]!;
        draws.routeMore.fill(0, routeStart[e], routeStart[e + 1]);
      }
    }
  }
}
