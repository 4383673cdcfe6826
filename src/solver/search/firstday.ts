import { Board } from "../network/board.ts";
import type { Recreate } from "./recreate.ts";
import { better, readValue, type Value } from "./score.ts";

/** Days that are filled one EVA after the other, beside one that is filled at once. */
const ONE_BY_ONE = 3;
/** Days that are filled so again with must-do work in the order of its links, while some is left out. */
const IN_ORDER = 4;

/**
 * Fills the empty day of `recreate` with the best of a few: one on which every task goes where it costs least on any EVA, and some that fill one
 * EVA after the other. On the first, tasks far from each other open each EVA, and where two have to stay together hardly anything fits between
 * them; on the others, what goes on an EVA draws its neighbours there before the next one is begun. Where all of them leave must-do work out,
 * that goes in the order of its links: if the last of a chain goes first, nothing may be left for the one in the middle. In steps, each of which
 * says that a better day than before stands on the board; in the end that is the best one.
 */
export function* fillAtFirst(recreate: Recreate): Generator<void, void> {
  const { day } = recreate;
  const { board, problem } = day;
  if (problem.evas < 2) {
    recreate.fill();
    return;
  }
  const blank = new Board(problem);
  const best = new Board(problem);
  const bestValue: Value = { mustOut: Infinity, worth: -1, endsS: 0 };
  const value: Value = { mustOut: 0, worth: 0, endsS: 0 };
  blank.copy(board);
  for (let k = 0; k <= ONE_BY_ONE + IN_ORDER && best.count < problem.activities; k += 1) {
    if (k > ONE_BY_ONE && bestValue.mustOut === 0) break;
    recreate.inOrder = k > ONE_BY_ONE;
    board.copy(blank);
    if (k > 0) fillOneByOne(recreate);
    recreate.fill();
    readValue(board, value);
    if (!better(value, bestValue)) continue;
    Object.assign(bestValue, value);
    best.copy(board);
    yield;
  }
  recreate.inOrder = false;
  board.copy(best);
}

/** Fills one EVA after the other, with what fits on it. */
function fillOneByOne(recreate: Recreate): void {
  const { insertion, day } = recreate;
  for (let e = 0; e < day.problem.evas; e += 1) {
    insertion.onlyEva = e;
    recreate.fill();
  }
  insertion.onlyEva = -1;
}
