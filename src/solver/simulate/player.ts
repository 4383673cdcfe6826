import type { CrewRules } from "../../answers/index.ts";
import { Certainty } from "./certainty.ts";
import { CARRIES_ON } from "./crew.ts";
import type { DaySample } from "./days.ts";
import { Decision } from "./decision.ts";
import { Lags } from "./lags.ts";
import { Latest } from "./latest.ts";
import { Mending } from "./mending.ts";
import { TodaysOpenings } from "./openings.ts";
import { WAY } from "./outcome.ts";
import { Outings } from "./outings.ts";
import { Rests } from "./rests.ts";
import type { Script } from "./script.ts";
import { Today } from "./today.ts";
import { countVain } from "./vain.ts";
import { Work } from "./work.ts";

/** Plays days over and over on the same arrays, by the rules of crew.ts. Read the outcome before the next day. */
export class Player extends Today {
  readonly latest: Latest;
  private readonly openings: TodaysOpenings;
  private readonly lags: Lags;
  private readonly rests: Rests;
  private readonly mending: Mending;
  private readonly certainty: Certainty;
  private readonly decision: Decision;
  private readonly does: Work;
  private readonly outings: Outings;

  constructor(script: Script, crew: CrewRules, moments = 0) {
    super(script, crew, moments);
    this.latest = new Latest(script);
    this.openings = new TodaysOpenings(this);
    this.lags = new Lags(this);
    this.rests = new Rests(this);
    this.mending = new Mending(this);
    this.certainty = new Certainty(this);
    this.decision = new Decision(this, this.openings, this.lags, this.mending, this.certainty, this.latest);
    this.does = new Work(this, this.lags, this.rests, this.mending);
    this.outings = new Outings(this);
  }

  /** Call when the script has taken up another schedule, or to play with another crew. */
  take(crew: CrewRules = this.crew): void {
    this.crew = crew;
    if (crew.leavesOut) this.latest.workOut(this.script, crew.caution);
    this.suits.takeGrid((e) => this.limitS(e, this.script.egressS[e]!));
  }

  /** Plays one day. With `recording` the suits' grid is filled as well. */
  play(draws: DaySample, recording = false): void {
    this.begin(recording);
    this.playOn(draws, 0, this.script.order.length);
    this.end(draws);
  }

  /** Plays the activities at these positions of the plan's order. */
  playOn(draws: DaySample, from: number, to: number): void {
    const { problem, order, laneOf } = this.script;
    for (let p = from; p < to; p += 1) {
      const a = order[p]!;
      if (problem.crewCount[a]! > 0) {
        const e = problem.evaOfRoute[laneOf[problem.slotStart[a]!]!]!;
        if (this.opened[e] === 0) this.outings.open(e, draws);
      }
      this.attempt(a, draws);
    }
  }

  /** Everybody comes home, and what was done in vain is counted. */
  end(draws: DaySample): void {
    this.outings.closeAll(draws);
    countVain(this, this.lags);
  }

  /** True when `a` is begun when ready (O7): the planner did not fix its start, and somebody is there to begin it. */
  private goesAhead(a: number): boolean {
    const { problem, stage } = this.script;
    return this.crew.goesAhead && stage.pinned[a] === 0 && problem.crewCount[a]! > 0;
  }

  /** Does `a`, breaks it off, or leaves it out (O3 to O10). */
  private attempt(a: number, draws: DaySample): void {
    if (this.script.stage.given[a] === 1) return this.happened(a, draws);
    const { decision, does } = this;
    const stranded = decision.strandedOf(a);
    if (stranded >= 0) return does.miss(a, this.suits.atS[stranded]!, WAY, draws);
    const startS = this.startInOpeningS(a, this.readyS(a), draws);
    const reason = decision.against(a, startS, draws);
    if (reason === 0) does.work(a, startS, draws, this.openings.closesS(a, startS));
    else does.miss(a, this.certainty.decidedS, reason, draws);
  }

  /** When `a` is ready to begin, one condition after the other, but for openings, rests and what is made good (O3). */
  private readyS(a: number): number {
    const { script, lags } = this;
    const { problem, laneOf } = script;
    const { slotStart, crewCount, routes } = problem;
    const first = slotStart[a]!;
    const crewEnd = first + crewCount[a]!;
    let readyS = this.goesAhead(a) ? -Infinity : script.planS[a]!;
    for (let s = first; s < crewEnd; s += 1) readyS = Math.max(readyS, this.hereS(a, laneOf[s]!));
    for (let s = crewEnd; s < slotStart[a + 1]!; s += 1)
      if (laneOf[s]! >= 0) readyS = Math.max(readyS, this.chainFreeS[laneOf[s]! - routes]!);
    readyS = Math.max(readyS, lags.tiedS(a, problem.lengthS[a]!), lags.togetherS(a));
    return problem.pet ? Math.max(readyS, this.openings.outS(a) + problem.pet.fromS[a]!) : readyS;
  }

  /**
   * The first start of `a` in an opening from `readyS` on, when rests that are due have been taken and what it needs has been made good;
   * Infinity where no opening is left.
   */
  private startInOpeningS(a: number, readyS: number, draws: DaySample): number {
    const { openFromS } = this.script.stage;
    let startS = readyS;
    // Who has waited long enough by then needs no rest any more, so one look at each walker after another is not enough.
    for (;;) {
      const o = this.openings.opening(a, startS);
      if (o < 0) return Infinity;
      startS = Math.max(startS, openFromS[o]!);
      let laterS = this.mending.mendedS(a, startS, draws);
      if (this.crew.restsByRule) laterS = Math.max(laterS, this.rests.restedS(a, startS));
      if (laterS === startS) return startS;
      startS = laterS;
    }
  }

  /** `a` as it is known to have gone: nothing is decided any more. */
  private happened(a: number, draws: DaySample): void {
    const { crew } = this;
    const startS = this.script.planS[a]!;
    const closesS = this.openings.closesS(a, startS);
    this.crew = CARRIES_ON;
    this.does.work(a, startS, draws, closesS);
    this.crew = crew;
  }
}
