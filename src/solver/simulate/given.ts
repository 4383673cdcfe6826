import type { CrewRules } from "../../answers/index.ts";
import type { Schedule } from "../../plan/index.ts";
import type { Problem } from "../problem/problem.ts";
import { Count } from "./count.ts";
import type { Dealt, DaySample } from "./days.ts";
import { Player } from "./player.ts";
import { Script } from "./script.ts";
import type { Stage } from "./stage.ts";
import type { Moment } from "./today.ts";

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
  const player = new KnownPlayer(script, crew);
  player.take();
  const count = new Count(player, new KnownDays(known, script, days, from, most));
  count.begin();
  return count;
}

/** Plays what is known once, as it is the same on every day, and every day on from there. */
class KnownPlayer extends Player {
  /** So many at the head of the order are known. */
  private readonly knownCount: number;
  private since: Moment | null = null;

  constructor(script: Script, crew: CrewRules) {
    super(script, crew);
    const { given } = script.stage;
    const first = script.order.findIndex((a) => given[a] === 0);
    this.knownCount = first < 0 ? script.order.length : first;
  }

  override play(draws: DaySample): void {
    const { order } = this.script;
    if (this.since) this.goBack(this.since);
    else {
      this.begin();
      this.playOn(draws, 0, this.knownCount);
      if (this.isKnownToEverybodyOut()) this.since = this.moment();
    }
    this.playOn(draws, this.knownCount, order.length);
    this.end(draws);
  }

  /** True when whoever is out so far began something that is known: another one's pace is drawn, and differs from day to day. */
  private isKnownToEverybodyOut(): boolean {
    const { problem, order, laneOf } = this.script;
    const known = new Uint8Array(problem.evas);
    for (let p = 0; p < this.knownCount; p += 1) {
      const a = order[p]!;
      if (problem.crewCount[a]! > 0) known[problem.evaOfRoute[laneOf[problem.slotStart[a]!]!]!] = 1;
    }
    return this.opened.every((opened, e) => opened === 0 || known[e] === 1);
  }
}

/** The days of a known past: drawn is only what comes after it. */
class KnownDays implements Dealt {
  readonly count: number;
  private readonly known: Known;
  private readonly days: Dealt;
  private readonly from: number;
  private readonly past: readonly number[];
  private readonly later: Int32Array;

  constructor(known: Known, { order }: Script, days: Dealt, from: number, count: number) {
    this.known = known;
    this.days = days;
    this.from = from;
    this.count = count;
    this.past = [...order].filter((a) => known.past[a] === 1);
    this.later = order.filter((a) => known.past[a] === 0);
  }

  deal(day: number, _order: Int32Array, laneOf: Int32Array, draws: DaySample): void {
    const { past, later } = this;
    const { slotStart, crewCount, evaOfRoute, routeStart, lengthS } = this.known.problem;
    this.days.deal(this.from + day, later, laneOf, draws);
    for (const a of past) {
      draws.durationS[a] = lengthS[a]!;
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
