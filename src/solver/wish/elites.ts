import type { Schedule } from "../../plan/index.ts";
import type { Board } from "../network/board.ts";
import { scheduleOf } from "../network/placing.ts";
import type { Seen } from "../simulate/seen.ts";
import type { Sampled } from "./trial.ts";
import { meetsWish, type Wish, valueOf } from "../simulate/value.ts";

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

/** Days as good as the best that are kept beside it, and by which part of its value they may do less. */
const MOST_ALIKE = 6;
const AS_GOOD = 0.001;

/** The best schedules seen under one wish that differ from each other, best first. */
export class Elites {
  readonly wish: Wish;
  readonly list: Elite[] = [];
  /**
   * Others of the tasks that the best has, as good as that on the common days, where so few days cannot tell which is better and many can: what loses
   * nothing on any of them may be lost on one of a hundred others.
   */
  readonly alike: Elite[] = [];
  /** The best that has both chances wanted: days that do much more and fall short by much may fill the list with their like. */
  meeting: Elite | null = null;
  private heard = 0;

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
    this.noteAlike(board, sampled, value);
    this.noteMeeting(board, sampled, value);
    const worst = list.at(-1);
    if (worst && list.length >= MOST && value <= worst.value) return;
    const placed = placedOn(board);
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
    const elite = eliteOf(board, sampled, value, placed);
    list.push(elite);
    list.sort((x, y) => y.value - x.value);
    list.length = Math.min(list.length, MOST);
    if (list[0] === elite) this.forget(elite);
  }

  /** Keeps the schedule on `board` beside the best where it is as good, in place of the one kept longest. */
  private noteAlike(board: Board, sampled: Sampled, value: number): void {
    const { best, alike } = this;
    if (!best || !isAsGood(value, best.value)) return;
    if ([best, ...alike].some((one) => one.sampled === sampled)) return;
    const placed = placedOn(board);
    if (differing(best.placed, placed) > 0) return;
    alike[this.heard % MOST_ALIKE] = eliteOf(board, sampled, value, placed);
    this.heard += 1;
  }

  /** Keeps the schedule on `board` where it has both chances and none that has them is better. */
  private noteMeeting(board: Board, sampled: Sampled, value: number): void {
    if (!meetsWish(this.wish, sampled) || (this.meeting !== null && this.meeting.value >= value)) return;
    this.meeting = eliteOf(board, sampled, value, placedOn(board));
  }

  /** Keeps only what is as good as the new best. */
  private forget({ placed, value, sampled }: Elite): void {
    const still = this.alike.filter(
      (one) => one.sampled !== sampled && isAsGood(one.value, value) && differing(one.placed, placed) === 0,
    );
    this.alike.splice(0, this.alike.length, ...still);
    this.heard = still.length;
  }
}

function placedOn({ placed, problem }: Board): Uint8Array {
  return placed.slice(0, problem.activities);
}

function eliteOf(board: Board, sampled: Sampled, value: number, placed: Uint8Array): Elite {
  return { schedule: scheduleOf(board), sampled, value, placed };
}

function isAsGood(value: number, best: number): boolean {
  return value >= best - AS_GOOD * Math.abs(best);
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
