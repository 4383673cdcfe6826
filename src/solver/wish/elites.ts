import type { Schedule } from "../../plan/index.ts";
import type { Board } from "../network/board.ts";
import { scheduleOf } from "../network/placing.ts";
import type { Seen } from "../simulate/seen.ts";
import type { Sampled } from "./trial.ts";
import { type Wish, valueOf } from "../simulate/value.ts";

/** A good schedule of a run. */
export interface Elite {
  readonly schedule: Schedule;
  readonly sampled: Sampled;
  readonly value: number;
  /** Which activities are placed. */
  readonly placed: Uint8Array;
}

const MOST = 12;
/**
 * Of two that differ in fewer placed activities than this only the better one stays, so that the list spans more than one neighbourhood;
 * but for two of which one has more worth and the other the better chance, since a few common days cannot tell which meets the wish.
 */
const APART = 2;

/** The best schedules seen under one wish that differ from each other, best first. */
export class Elites {
  readonly wish: Wish;
  readonly list: Elite[] = [];

  constructor(wish: Wish) {
    this.wish = wish;
  }

  get best(): Elite | null {
    return this.list[0] ?? null;
  }

  /** Value of the best; -Infinity while there is none. */
  get bestValue(): number {
    return this.best?.value ?? -Infinity;
  }

  /** Takes note of the schedule on `board`. */
  note(board: Board, sampled: Sampled): void {
    const { list } = this;
    const value = valueOf(this.wish, sampled);
    const worst = list.at(-1);
    if (worst && list.length >= MOST && value <= worst.value) return;
    const placed = board.placed.slice(0, board.problem.activities);
    const near = list.findIndex(
      (one) => differing(one.placed, placed) < APART && !traded(one.sampled, sampled),
    );
    if (near >= 0) {
      const other = list[near]!;
      // Of two that do the same the one that plans less: the other one plans what is never done.
      if (other.value > value || (other.value === value && plannedOn(other.placed) <= plannedOn(placed)))
        return;
      list.splice(near, 1);
    }
    list.push({ schedule: scheduleOf(board), sampled, value, placed });
    list.sort((x, y) => y.value - x.value);
    list.length = Math.min(list.length, MOST);
  }
}

/** True where one does more and the other has every must-do task done more often. */
function traded(a: Seen, b: Seen): boolean {
  return (a.worth - b.worth) * (a.must - b.must) < 0;
}

function plannedOn(placed: Uint8Array): number {
  return placed.reduce((sum, one) => sum + one, 0);
}

function differing(a: Uint8Array, b: Uint8Array): number {
  let count = 0;
  for (let i = 0; i < a.length; i += 1) if (a[i] !== b[i]) count += 1;
  return count;
}
