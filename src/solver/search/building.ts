import type { Random } from "../../kernel/index.ts";
import { Board } from "../network/board.ts";
import type { Recreate } from "./recreate.ts";

/** Beginnings that are tried for each EVA. */
const BEGINNINGS = 24;
/** Part of a run after which what is built is good enough. */
const BUILT_BY = 0.2;

/**
 * Builds a day from nothing, EVA by EVA: each around the best of some activities, with what is near that and worth the time first, so that
 * an EVA goes to few places and does there what there is to do. A search that betters a day task by task hardly ever comes to such a day from one whose
 * EVAs all go everywhere. Must-do work may be left out: that is the search's to mend.
 */
export class Building {
  /** The day so far, with the EVAs before the one in hand. */
  private readonly begun: Board;
  private readonly best: Board;
  private readonly recreate: Recreate;
  private readonly random: Random;
  private readonly mustWeight: number;
  private bestValue = -Infinity;
  private eva = 0;
  private tried = 0;

  /** From `blank`, a day without anything on it; what is left out of must-do work counts as `mustWeight` less worth for each. */
  constructor(recreate: Recreate, random: Random, blank: Board, mustWeight: number) {
    const { problem } = recreate.day;
    this.recreate = recreate;
    this.random = random;
    this.mustWeight = mustWeight;
    this.begun = new Board(problem);
    this.begun.copy(blank);
    this.best = new Board(problem);
  }

  /** One more beginning, at `share` of the run; true once the day is built and stands on the board of the recreate. */
  turn(share: number): boolean {
    const { recreate, best, begun } = this;
    const { board, problem } = recreate.day;
    board.copy(begun);
    this.fillEva();
    const value = board.worth - this.mustWeight * board.mustOut;
    if (value > this.bestValue) {
      this.bestValue = value;
      best.copy(board);
    }
    this.tried += 1;
    if (this.tried < BEGINNINGS && share * problem.evas < BUILT_BY * (this.eva + 1)) return false;
    begun.copy(best);
    this.bestValue = -Infinity;
    this.tried = 0;
    this.eva += 1;
    if (this.eva < problem.evas) return false;
    board.copy(begun);
    recreate.fill();
    return true;
  }

  /** Fills the EVA in hand around something that is left out. */
  private fillEva(): void {
    const { recreate, random } = this;
    const { board, problem } = recreate.day;
    const { insertion } = recreate;
    if (board.count === problem.activities) return;
    let around = random.below(problem.activities);
    while (board.placed[around] === 1) around = around + 1 === problem.activities ? 0 : around + 1;
    insertion.onlyEva = this.eva;
    recreate.around = around;
    recreate.requiredWorth = 2 * this.mustWeight;
    recreate.place(around, 0);
    recreate.fill();
    insertion.onlyEva = -1;
    recreate.around = -1;
    recreate.requiredWorth = 0;
  }
}
