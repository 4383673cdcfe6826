import { Board } from "../network/board.ts";
import { Propagation } from "../network/propagate.ts";
import { type PlacedActivity, Verifier } from "../network/verify.ts";
import { NEVER, type Problem } from "../problem/problem.ts";
import { apartForSure } from "./apart.ts";
import { unrestedForSure } from "./unrested.ts";

/** Starts from `floorS` to `ceilingS`, by activity. */
interface Box {
  readonly floorS: Int32Array;
  readonly ceilingS: Int32Array;
}

/**
 * Every choice of starts for a given order, by branch and bound over boxes of starts: a box goes where no starts in it keep the rules on rests
 * and on staying together, is split in halves where some may, and a single choice of starts is tested with all rules.
 */
export class Boxes {
  /** The starts that hold, once some were found. */
  found: readonly PlacedActivity[] = [];
  private readonly problem: Problem;
  private readonly board: Board;
  private readonly propagation: Propagation;
  private readonly verifier: Verifier;

  /** `loose` is `problem` without the rules that are kept by waiting. */
  constructor(problem: Problem, relaxed: Problem) {
    this.problem = problem;
    this.board = new Board(relaxed);
    this.propagation = new Propagation(this.board);
    this.verifier = new Verifier(problem);
  }

  /**
   * Looks for starts of the order on `order`, each activity with its crew choice in `choiceOf`, in at most `most` boxes; yields before each.
   * "unknown" when there were more.
   */
  *run(order: Board, choiceOf: Int32Array, most: number): Generator<void, "holds" | "never" | "unknown"> {
    const { activities } = this.problem;
    this.board.copy(order);
    const open: Box[] = [{ floorS: order.floorS.slice(), ceilingS: new Int32Array(activities).fill(NEVER) }];
    for (let count = 0; ; count += 1) {
      const box = open.pop();
      if (!box) return "never";
      if (count === most) return "unknown";
      yield;
      if (!this.mayHold(box)) continue;
      if (this.holdsAtOnce(choiceOf)) return "holds";
      const a = this.widest();
      if (a < 0) continue;
      const { earliest, latest } = this.board;
      const middleS = Math.floor((earliest[a]! + latest[a]!) / 2);
      open.push({ ...box, floorS: box.floorS.with(a, middleS + 1) });
      open.push({ ...box, ceilingS: box.ceilingS.with(a, middleS) });
    }
  }

  /** Works out the starts that are left of `box`; false when there are none that keep what can be told of a whole box. */
  private mayHold({ floorS, ceilingS }: Box): boolean {
    const { board, propagation, problem } = this;
    const { earliest, latest, placed } = board;
    board.floorS.set(floorS);
    if (!propagation.earliestOfAll() || !propagation.latestOfAll() || !propagation.lowerTo(ceilingS))
      return false;
    for (let node = 0; node < problem.nodes; node += 1)
      if (placed[node] === 1 && earliest[node]! > latest[node]!) return false;
    return !unrestedForSure(board, problem.limits) && !apartForSure(board, problem.limits);
  }

  /** True when everything as soon as it may begin keeps every rule. */
  private holdsAtOnce(choiceOf: Int32Array): boolean {
    const { board, verifier } = this;
    const placings: PlacedActivity[] = [];
    choiceOf.forEach((choice, activity) => {
      if (choice >= 0) placings.push({ activity, choice, startS: board.earliest[activity]! });
    });
    if (!verifier.holds(placings)) return false;
    this.found = placings;
    return true;
  }

  /** The activity whose start is least certain; -1 when all are certain. */
  private widest(): number {
    const { earliest, latest, placed } = this.board;
    let widest = -1;
    let mostS = 0;
    for (let a = 0; a < this.problem.activities; a += 1) {
      const wideS = latest[a]! - earliest[a]!;
      if (placed[a] === 0 || wideS <= mostS) continue;
      widest = a;
      mostS = wideS;
    }
    return widest;
  }
}
