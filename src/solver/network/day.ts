import type { PackerRule } from "../../rules/index.ts";
import { Board } from "./board.ts";
import { NEVER, type Problem } from "../problem/problem.ts";
import { Propagation } from "./propagate.ts";
import { keepFromEgress } from "./rules/fromegress.ts";
import { keepCool } from "./rules/heat.ts";
import { egressS } from "./rules/outing.ts";
import { type RuleAnswer, keepRests } from "./rules/rests.ts";
import { shorten } from "./rules/shorten.ts";
import { Together } from "./rules/together.ts";
import { totalsHold } from "./rules/totals.ts";
import { keepWayBack } from "./rules/walkback.ts";
import { InsertionTrial } from "./trial.ts";

/** Rounds of mending in which a day must come to hold, or it is given up. */
const MOST_ROUNDS = 60;

/**
 * A board with everything that keeps it feasible: what goes on it stays only if every rule holds at the earliest
 * starts. Rests and holds that the rules ask for become part of the network, so each only ever delays.
 */
export class Day {
  readonly problem: Problem;
  readonly board: Board;
  private readonly propagation: Propagation;
  private readonly together: Together | null;
  private readonly before: Board;
  private readonly needsRests: boolean;
  private readonly needsWayBack: boolean;
  /** The rule that the last failed attempt ran into; "time" where the network had no room. */
  broke: PackerRule | "time" = "time";
  /** What is tried beside what stands, while it is; before then nothing changes on its EVA. */
  private readonly trial: InsertionTrial;
  /** By route: 1 where something may have changed since the rules held last. */
  private readonly touched: Uint8Array;
  /** True once a trial has spoilt all latest starts. */
  private latestSpoilt = false;

  constructor(problem: Problem) {
    this.problem = problem;
    this.board = new Board(problem);
    this.before = new Board(problem);
    this.propagation = new Propagation(this.board);
    const { limits } = problem;
    this.together = Number.isFinite(limits.apartM) ? new Together(problem) : null;
    this.trial = new InsertionTrial(this.board);
    this.touched = new Uint8Array(problem.routes);
    this.needsWayBack = problem.draws.walkbackBinds.includes(1);
    this.needsRests = Number.isFinite(limits.workS);
    this.settle();
  }

  /** Works all times out from scratch; false when the order on the board breaks a rule. */
  settle(): boolean {
    return this.decode() && this.propagation.latestOfAll();
  }

  /** Places `activity` behind the given slots if every rule still holds; else leaves the day as it was. */
  tryLink(activity: number, behind: ArrayLike<number>, eva: number): boolean {
    const { board, propagation, problem } = this;
    if (problem.checkLevel === "slack") {
      board.link(activity, behind, eva);
      return propagation.raiseFrom(activity) && propagation.lowerFrom(activity);
    }
    this.note();
    board.link(activity, behind, eva);
    const holds =
      problem.checkLevel === "network"
        ? propagation.raiseFrom(activity) && this.totals() && propagation.lowerFrom(activity)
        : this.decodeEva(eva) && propagation.latestOfAll();
    if (!holds) this.undo(activity);
    return holds;
  }

  /**
   * As tryLink, but quicker: rests and holds that are taken stay, times are only raised from here on, and rules tested from the first
   * moment that changes. What it places holds; what it refuses might go with other rests and holds.
   */
  tryBeside(activity: number, behind: ArrayLike<number>, eva: number): boolean {
    const { board, propagation, problem } = this;
    if (problem.checkLevel !== "rules") return this.tryLink(activity, behind, eva);
    const { trail } = propagation;
    this.broke = "time";
    this.trial.begin(activity, behind, eva);
    this.latestSpoilt = false;
    trail.keep();
    board.link(activity, behind, eva);
    trail.lowered(activity);
    board.latest[activity] = this.latestBeforeNext(activity);
    propagation.dirty.fill(0);
    if (eva >= 0) propagation.dirty[eva] = 1;
    propagation.bounded = eva < 0 || board.onEva[eva]! > 1;
    const settled = propagation.raiseFrom(activity) && this.mendRules();
    propagation.bounded = false;
    const holds =
      settled &&
      (this.latestSpoilt ? propagation.latestOfAll() : propagation.lowerFrom(activity, trail.heldBefore));
    this.trial.on = false;
    if (holds) {
      trail.commit();
      return true;
    }
    trail.undo();
    board.unlink(activity);
    if (this.latestSpoilt) board.latest.set(this.before.latest);
    this.trial.restoreVersions(behind);
    return false;
  }

  /**
   * Works the day out after something was taken off `before`: EVAs whose order changed anew, while what was laid on the others stays and
   * is tested only where times changed. False when it does not hold.
   */
  settleFrom(before: Board): boolean {
    const { board, propagation, problem } = this;
    if (problem.checkLevel !== "rules") return this.settle();
    const { evaVersion } = board;
    this.broke = "time";
    for (let e = 0; e < problem.evas; e += 1) if (evaVersion[e] !== before.evaVersion[e]) this.dropWaits(e);
    if (!propagation.earliestOfAll()) return false;
    const { dirty } = propagation;
    for (let e = 0; e < problem.evas; e += 1) {
      const egress = problem.activities + 2 * e;
      dirty[e] =
        evaVersion[e] !== before.evaVersion[e] ||
        board.earliest[egress] !== before.earliest[egress] ||
        board.earliest[egress + 1] !== before.earliest[egress + 1]
          ? 1
          : 0;
    }
    for (let a = 0; a < problem.activities; a += 1) {
      const e = board.evaOf[a]!;
      if (e >= 0 && board.earliest[a] !== before.earliest[a]) dirty[e] = 1;
    }
    return this.mendRules() && propagation.latestOfAll();
  }

  /** The latest start of `activity` that leaves what comes after it at its latest. */
  private latestBeforeNext(activity: number): number {
    const { board, problem } = this;
    const { next, latest, nodeOf } = board;
    let leastS = NEVER;
    for (let s = problem.slotStart[activity]!; s < problem.slotStart[activity + 1]!; s += 1)
      leastS = Math.min(leastS, latest[nodeOf[next[s]!]!]! - board.gapS(s, next[s]!));
    return leastS;
  }

  /** Takes away the rests and holds on EVA `e`. */
  private dropWaits(e: number): void {
    const { board, problem } = this;
    board.dropHolds(e);
    for (let r = problem.routeStart[e]!; r < problem.routeStart[e + 1]!; r += 1)
      for (let s = board.next[board.head + r]!; s < board.head; s = board.next[s]!) board.restS[s] = 0;
  }

  /** Takes `activity` off a day that holds; false when the day does not hold without it. */
  unlink(activity: number): boolean {
    this.board.unlink(activity);
    return this.settle();
  }

  /** Earliest and latest start of `activity` behind the given slots if every rule still holds there; the day stays as it is. */
  roomAt(activity: number, behind: ArrayLike<number>, eva: number): { fromS: number; toS: number } | null {
    const { board } = this;
    if (!this.tryLink(activity, behind, eva)) return null;
    const room = { fromS: board.earliest[activity]!, toS: board.latest[activity]! };
    if (this.problem.checkLevel === "slack") this.unlink(activity);
    else this.undo(activity);
    return room;
  }

  /** True when `activity` could stand behind the given slots and start exactly at `startS`; the day stays as it is. */
  holdsAt(activity: number, behind: ArrayLike<number>, eva: number, startS: number): boolean {
    const { board } = this;
    this.note();
    board.link(activity, behind, eva);
    const holds = this.decodeEva(eva, activity, startS) && board.earliest[activity] === startS;
    this.undo(activity);
    return holds;
  }

  /** Notes times, rests and holds before something is linked. */
  private note(): void {
    const { board, before, problem } = this;
    before.earliest.set(board.earliest);
    before.latest.set(board.latest);
    if (problem.checkLevel !== "rules") return;
    before.restS.set(board.restS);
    before.copyHolds(board);
  }

  /** Takes `activity` off again, with times, rests and holds as noted. */
  private undo(activity: number): void {
    const { board, before, problem } = this;
    board.unlink(activity);
    board.earliest.set(before.earliest);
    board.latest.set(before.latest);
    if (problem.checkLevel !== "rules") return;
    board.restS.set(before.restS);
    board.copyHolds(before);
  }

  /** Earliest starts under all rules, that of `least` not before `leastS`; false when there are none. */
  private decode(least = -1, leastS = 0): boolean {
    const { board, propagation } = this;
    this.broke = "time";
    board.touch();
    board.dropHolds(-1);
    board.restS.fill(0);
    if (!propagation.earliestOfAll()) return false;
    propagation.dirty.fill(1);
    return this.settleRules(least, leastS);
  }

  /** As decode after something was placed on EVA `eva`, but what stands elsewhere is taken as it is. */
  private decodeEva(eva: number, least = -1, leastS = 0): boolean {
    const { propagation } = this;
    if (eva < 0) return this.decode(least, leastS);
    this.broke = "time";
    this.dropWaits(eva);
    propagation.dirty.fill(0);
    propagation.dirty[eva] = 1;
    return propagation.earliestOfEva(eva) && this.settleRules(least, leastS);
  }

  /** What follows from a least start, and the rules. */
  private settleRules(least: number, leastS: number): boolean {
    const { propagation, problem } = this;
    if (least >= 0) {
      propagation.begin();
      if (!propagation.raise(least, leastS)) {
        propagation.drop();
        return false;
      }
      if (!propagation.raiseAll()) return false;
    }
    return problem.checkLevel === "rules" ? this.mendRules() : this.totals();
  }

  /** Lets the rules ask for rests and holds until all hold; false when they cannot. */
  private mendRules(): boolean {
    const { propagation } = this;
    for (let round = 0; round < MOST_ROUNDS; round += 1) {
      propagation.begin();
      const answer = this.keepRules();
      if (answer === "holds" && this.totals()) return true;
      if (answer === "fails" || (answer === "holds" && !this.shortens())) {
        propagation.drop();
        return false;
      }
      if (!propagation.raiseAll()) return false;
    }
    return false;
  }

  /** Makes an EVA shorter, where the EVAs take too long together; false where that cannot be. */
  private shortens(): boolean {
    const { board, propagation } = this;
    if (this.trial.on && !this.latestSpoilt) {
      this.latestSpoilt = true;
      propagation.bounded = false;
      this.before.latest.set(board.latest);
    }
    return shorten(board, propagation) !== "fails";
  }

  private keepRules(): RuleAnswer {
    const { board, propagation, problem } = this;
    let answer: RuleAnswer = "holds";
    for (let e = 0; e < problem.evas; e += 1) {
      if (propagation.dirty[e] === 0) continue;
      propagation.dirty[e] = 0;
      if (board.onEva[e] === 0) continue;
      const here = this.keepRulesOn(e);
      if (here === "fails") return here;
      if (here === "changed") answer = here;
    }
    return answer;
  }

  private keepRulesOn(e: number): RuleAnswer {
    const { board, propagation, problem } = this;
    let answer: RuleAnswer = "holds";
    const outS = egressS(board, e);
    const sinceS = this.unchangedUntilS(e, outS);
    if (problem.pet) {
      const inTime = keepFromEgress(board, propagation, e, outS);
      if (inTime === "fails") return this.breaks("egress-window");
      if (inTime === "changed") answer = inTime;
    }
    for (let r = problem.routeStart[e]!; r < problem.routeStart[e + 1]!; r += 1) {
      if (this.touched[r] === 0) continue;
      const here = this.keepRulesOnRoute(r, outS);
      if (here === "fails") return here;
      if (here === "changed") answer = here;
    }
    if (!this.together || answer === "changed") return answer;
    const near = this.together.keep(board, propagation, e, sinceS);
    return near === "fails" ? this.breaks("crew-separation") : near;
  }

  private keepRulesOnRoute(r: number, outS: number): RuleAnswer {
    const { board, propagation, problem } = this;
    const rests = this.needsRests ? keepRests(board, propagation, r, outS) : "holds";
    if (rests === "fails") return this.breaks("work-and-rest");
    const cool = problem.heat ? keepCool(board, propagation, r, outS) : "holds";
    if (cool === "fails") return this.breaks("heat-storage");
    const back = this.needsWayBack ? keepWayBack(board, propagation, r, outS) : "holds";
    if (back === "fails") return this.breaks("walk-back-consumables");
    return rests === "holds" && cool === "holds" && back === "holds" ? "holds" : "changed";
  }

  /** Until when EVA `e` goes as it did before what is tried, now that it begins at `outS`; marks the routes that do not. */
  private unchangedUntilS(e: number, outS: number): number {
    const { trial, touched, problem } = this;
    const first = problem.routeStart[e]!;
    const end = problem.routeStart[e + 1]!;
    if (!trial.on || trial.eva !== e || trial.outS !== outS) {
      touched.fill(1, first, end);
      return -Infinity;
    }
    touched.fill(0, first, end);
    for (const r of trial.routes) touched[r] = 1;
    return Math.min(trial.leftS, this.propagation.trail.firstRaisedS(e, trial.activity, touched));
  }

  private totals(): boolean {
    if (totalsHold(this.board)) return true;
    this.broke = "totals";
    return false;
  }

  private breaks(rule: PackerRule): RuleAnswer {
    this.broke = rule;
    return "fails";
  }
}
