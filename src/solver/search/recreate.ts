import type { Random } from "../../kernel/index.ts";
import { Board } from "../network/board.ts";
import type { Day } from "../network/day.ts";
import { Insertion } from "./insertion.ts";
import type { Problem } from "../problem/problem.ts";

/** An activity is overlooked at a place with this probability (Christiaens & Vanden Berghe 2020). */
const BLINK = 0.01;

/**
 * Recreate: puts left-out activities back one after the other, each with what it needs, in a noisy order of one of
 * several kinds, each at its best place with blinks (Christiaens & Vanden Berghe 2020).
 */
export class Recreate {
  readonly insertion: Insertion;
  readonly day: Day;
  /** Chance that a left-out optional activity is offered at all when the day is filled. */
  offered = 1;
  private readonly problem: Problem;
  private readonly random: Random;
  private readonly order: Int32Array;
  private readonly key: Float64Array;
  private readonly before: Board;
  private readonly failed: Uint8Array;
  /** Room that an activity's windows leave for its start, s. */
  private readonly roomS: Float64Array;
  private readonly possible: Int32Array;

  constructor(day: Day, random: Random) {
    this.day = day;
    this.problem = day.problem;
    this.random = random;
    this.insertion = new Insertion(day, random);
    const { problem } = day;
    this.order = new Int32Array(problem.activities);
    this.key = new Float64Array(problem.activities);
    this.before = new Board(problem);
    this.failed = new Uint8Array(problem.activities);
    this.roomS = roomOf(problem);
    const possible: number[] = [];
    for (let a = 0; a < problem.activities; a += 1) if (this.roomS[a]! >= 0) possible.push(a);
    this.possible = Int32Array.from(possible);
  }

  /** Fills the day with what is left out. */
  fill(): void {
    const { problem, order, key, random, roomS } = this;
    const { placed } = this.day.board;
    const { worth, lengthS, must } = problem;
    const mode = random.next();
    let count = 0;
    for (const a of this.possible) {
      if (placed[a] === 1) continue;
      if (this.offered < 1 && must[a] === 0 && random.next() >= this.offered) continue;
      const noise = random.next();
      const value = worth[a]! + 1e-3;
      key[a] =
        mode < 0.4
          ? -value * (0.6 + 0.8 * noise)
          : mode < 0.6
            ? noise
            : mode < 0.8
              ? (-value * value * (0.7 + 0.6 * noise)) / (lengthS[a]! + 1 + roomS[a]! * 0.1)
              : roomS[a]! * (0.5 + noise);
      if (must[a] === 1) key[a]! -= 1e12;
      order[count] = a;
      count += 1;
    }
    sortBy(order, key, count);
    this.failed.fill(0);
    for (let k = 0; k < count; k += 1) if (placed[order[k]!] === 0) this.place(order[k]!, BLINK);
    this.failed.fill(0);
  }

  /** Places `activity` with everything it needs, or nothing at all. */
  place(activity: number, blink: number): boolean {
    const { needs } = this.problem;
    if (this.day.board.placed[activity] === 1) return true;
    if (needs[activity]!.length === 0) return this.insertion.place(activity, blink);
    const { board } = this.day;
    const group: number[] = [];
    this.gather(activity, group);
    if (group.length === 1) return this.insertion.place(activity, blink);
    // Within one fill, what failed alone fails again in a larger group.
    for (const one of group) if (this.failed[one] === 1) return false;
    this.before.copy(board);
    for (const one of group) {
      if (this.insertion.place(one, blink)) continue;
      board.copy(this.before);
      if (one === group[0]) this.failed[one] = 1;
      return false;
    }
    return true;
  }

  /** What has to go on with `activity`, needed ones first. */
  private gather(activity: number, group: number[], seen: Set<number> = new Set()): void {
    if (seen.has(activity) || this.day.board.placed[activity] === 1) return;
    seen.add(activity);
    for (const one of this.problem.needs[activity]!) this.gather(one, group, seen);
    group.push(activity);
  }
}

/** Sorts the first `count` of `order` by key (Shell 1959): no closure is made and no list copied. */
function sortBy(order: Int32Array, key: Float64Array, count: number): void {
  for (const gap of GAPS) {
    for (let k = gap; k < count; k += 1) {
      const a = order[k]!;
      const value = key[a]!;
      let at = k;
      for (; at >= gap && key[order[at - gap]!]! > value; at -= gap) order[at] = order[at - gap]!;
      order[at] = a;
    }
  }
}

/** Ciura 2001, Lecture Notes in Computer Science 2138:106. */
const GAPS = [701, 301, 132, 57, 23, 10, 4, 1];

/** Room for the start of each activity; -1 where it can never be placed. */
function roomOf(problem: Problem): Float64Array {
  return Float64Array.from({ length: problem.activities }, (_, a) => {
    const first = problem.openStart[a]!;
    const last = problem.openStart[a + 1]! - 1;
    if (last < first || problem.choiceStart[a] === problem.choiceStart[a + 1]) return -1;
    let room = problem.crewCount[a] === 0 ? problem.openToS[last]! - problem.openFromS[first]! : -1;
    for (let c = problem.choiceStart[a]!; c < problem.choiceStart[a + 1]!; c += 1) {
      if (problem.crewCount[a] === 0) continue;
      const r = problem.choiceRoutes[problem.choiceAt[c]!]!;
      const e = problem.evaOfRoute[r]!;
      const g = problem.gapStart[e]!;
      const end = problem.gapStart[e + 1]!;
      if (g === end) continue;
      const egress = problem.activities + 2 * e;
      const out = problem.legS[r]![problem.lander * problem.places + problem.beginsAt[a]!]!;
      const home = problem.legS[r]![problem.endsAt[a]! * problem.places + problem.lander]!;
      const fromS = Math.max(
        problem.openFromS[first]!,
        problem.gapFromS[g]! + problem.lengthS[egress]! + out,
      );
      const toS = Math.min(
        problem.openToS[last]!,
        problem.gapToS[end - 1]! - problem.lengthS[egress + 1]! - home - problem.lengthS[a]!,
      );
      room = Math.max(room, toS - fromS);
    }
    return room;
  });
}
