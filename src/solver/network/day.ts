import type { PackerRule } from "../../rules/index.ts";
import { Board } from "./board.ts";
import type { Problem } from "../problem/problem.ts";
import { Propagation } from "./propagate.ts";
import { keepCool } from "./rules/heat.ts";
import { egressS } from "./rules/outing.ts";
import { type Answer, keepRests } from "./rules/rests.ts";
import { shorten } from "./rules/shorten.ts";
import { Together } from "./rules/together.ts";
import { totalsHold } from "./rules/totals.ts";
import { keepWayBack } from "./rules/walkback.ts";

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

  constructor(problem: Problem) {
    this.problem = problem;
    this.board = new Board(problem);
    this.before = new Board(problem);
    this.propagation = new Propagation(this.board);
    const { limits } = problem;
    this.together = Number.isFinite(limits.apartM) ? new Together(problem) : null;
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
    if (problem.reach === "slack") {
      board.link(activity, behind, eva);
      return propagation.raiseFrom(activity) && propagation.lowerFrom(activity);
    }
    this.note();
    board.link(activity, behind, eva);
    const holds =
      problem.reach === "network"
        ? propagation.raiseFrom(activity) && this.totals() && propagation.lowerFrom(activity)
        : this.decodeEva(eva) && propagation.latestOfAll();
    if (!holds) this.takeBack(activity);
    return holds;
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
    if (this.problem.reach === "slack") this.unlink(activity);
    else this.takeBack(activity);
    return room;
  }

  /** True when `activity` could stand behind the given slots and start exactly at `startS`; the day stays as it is. */
  holdsAt(activity: number, behind: ArrayLike<number>, eva: number, startS: number): boolean {
    const { board } = this;
    this.note();
    board.link(activity, behind, eva);
    const holds = this.decodeEva(eva, activity, startS) && board.earliest[activity] === startS;
    this.takeBack(activity);
    return holds;
  }

  /** Notes times, rests and holds before something is linked. */
  private note(): void {
    const { board, before, problem } = this;
    before.earliest.set(board.earliest);
    before.latest.set(board.latest);
    if (problem.reach !== "rules") return;
    before.restS.set(board.restS);
    before.copyHolds(board);
  }

  /** Takes `activity` off again, with times, rests and holds as noted. */
  private takeBack(activity: number): void {
    const { board, before, problem } = this;
    board.unlink(activity);
    board.earliest.set(before.earliest);
    board.latest.set(before.latest);
    if (problem.reach !== "rules") return;
    board.restS.set(before.restS);
    board.copyHolds(before);
  }

  /** Earliest starts under all rules, that of `least` not before `leastS`; false when there are none. */
  private decode(least = -1, leastS = 0): boolean {
    const { board, propagation } = this;
    this.broke = "time";
    board.dropHolds(-1);
    board.restS.fill(0);
    if (!propagation.earliestOfAll()) return false;
    propagation.dirty.fill(1);
    return this.settleRules(least, leastS);
  }

  /** As decode after something was placed on EVA `eva`, but what stands elsewhere is taken as it is. */
  private decodeEva(eva: number, least = -1, leastS = 0): boolean {
    const { board, propagation, problem } = this;
    if (eva < 0) return this.decode(least, leastS);
    this.broke = "time";
    board.dropHolds(eva);
    for (let r = problem.routeStart[eva]!; r < problem.routeStart[eva + 1]!; r += 1)
      for (let s = board.next[board.head + r]!; s < board.head; s = board.next[s]!) board.restS[s] = 0;
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
    return problem.reach === "rules" ? this.mendRules() : this.totals();
  }

  /** Lets the rules ask for rests and holds until all hold; false when they cannot. */
  private mendRules(): boolean {
    const { propagation } = this;
    for (let round = 0; round < MOST_ROUNDS; round += 1) {
      propagation.begin();
      const answer = this.keepRules();
      if (answer === "fails") {
        propagation.drop();
        return false;
      }
      if (answer === "holds") {
        if (this.totals()) return true;
        if (shorten(this.board, propagation) === "fails") {
          propagation.drop();
          return false;
        }
      }
      if (!propagation.raiseAll()) return false;
    }
    return false;
  }

  private keepRules(): Answer {
    const { board, propagation, problem } = this;
    let answer: Answer = "holds";
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

  private keepRulesOn(e: number): Answer {
    const { board, propagation, problem } = this;
    let answer: Answer = "holds";
    const outS = egressS(board, e);
    for (let r = problem.routeStart[e]!; r < problem.routeStart[e + 1]!; r += 1) {
      if (this.needsRests) {
        const rests = keepRests(board, propagation, r, outS);
        if (rests === "fails") return this.breaks("work-and-rest");
        if (rests === "changed") answer = rests;
      }
      if (problem.heat) {
        const cool = keepCool(board, propagation, r, outS);
        if (cool === "fails") return this.breaks("heat-storage");
        if (cool === "changed") answer = cool;
      }
      if (this.needsWayBack) {
        const back = keepWayBack(board, propagation, r, outS);
        if (back === "fails") return this.breaks("walk-back-consumables");
        if (back === "changed") answer = back;
      }
    }
    if (!this.together || answer === "changed") return answer;
    const near = this.together.keep(board, propagation, e);
    return near === "fails" ? this.breaks("crew-separation") : near;
  }

  private totals(): boolean {
    if (totalsHold(this.board)) return true;
    this.broke = "totals";
    return false;
  }

  private breaks(rule: PackerRule): Answer {
    this.broke = rule;
    return "fails";
  }
}
