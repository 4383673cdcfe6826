import { type Random, random } from "../../kernel/index.ts";
import { Board, NO_FLOOR } from "../network/board.ts";
import { Day } from "../network/day.ts";
import type { Problem } from "../problem/problem.ts";
import {
  compareFinishes,
  type Finish,
  isByOwnCrew,
  marginOf,
  type Own,
  ownOf,
  readFinish,
} from "./finish.ts";
import { BLINK, Recreate } from "./recreate.ts";
import { Ruin } from "./ruin.ts";

/** A step counts beside the one so many steps before it: better than that or than the last is good enough. */
const MEMORY = 40;
/** Most activities taken at once. */
const MOST_TAKEN = 4;
/** Parts of the steps that begin on the outing of the worst margin, and that let an activity start as the plan's own schedule has it. */
const AT_THE_WORST = 0.4;
const AS_BEFORE = 0.15;
/** Part of the others that take as much as the search does, and how often that is done for a beginning elsewhere. */
const AT_LARGE = 0.1;
const LARGE = 3;
/** Chance that a place is overlooked: what is taken shall not always go back to where it was. */
const OVERLOOKED = 0.25;
/** Steps without anything better after which the search begins elsewhere: for each activity, and at least. */
const STUCK = 8;
const LEAST_STUCK = 80;
/** Beginnings elsewhere without anything better after which there is nothing more to expect. */
const BEGINNINGS = 30;

/**
 * Betters a day by all that decides once must-do work and worth are what they are: worst margin, changes against the plan's own
 * schedule, walking, finish. A few neighbouring activities are taken off and go back elsewhere; late acceptance (Burke & Bykov 2017,
 * Eur J Oper Res 258:70), which asks only which of two days is better, so that the order of the score needs no weights.
 */
export class Refine {
  readonly best: Board;
  private readonly bestFinish: Finish = none();
  private readonly day: Day;
  private readonly ruin: Ruin;
  private readonly recreate: Recreate;
  private readonly random: Random;
  private readonly own: Own;
  private readonly current: Board;
  private readonly currentFinish: Finish = none();
  private readonly finish: Finish = none();
  private readonly memory: Finish[];
  private readonly stuckAfter: number;
  private steps = 0;
  /** Steps since this beginning led to anything better than it had, and beginnings since the best day got better. */
  private idle = 0;
  private beginnings = 0;

  /** Goes on from the best of `days`, boards of `problem`. */
  constructor(problem: Problem, seed: number, days: readonly Board[]) {
    this.random = random(seed);
    this.day = new Day(problem);
    this.ruin = new Ruin(this.day, this.random);
    this.recreate = new Recreate(this.day, this.random, true);
    this.recreate.blink = OVERLOOKED;
    this.own = ownOf(problem);
    this.best = new Board(problem);
    this.current = new Board(problem);
    const from = bestOf(days, this.own);
    this.day.board.adopt(from);
    this.current.copy(this.day.board);
    this.best.copy(this.day.board);
    this.recreate.insertion.base = this.current.version;
    readFinish(from, this.own, this.currentFinish);
    Object.assign(this.bestFinish, this.currentFinish);
    this.memory = Array.from({ length: MEMORY }, () => ({ ...this.currentFinish }));
    this.stuckAfter = Math.max(LEAST_STUCK, STUCK * problem.activities);
  }

  /** True when nothing better was found from wherever it was looked for. */
  get isDone(): boolean {
    return this.beginnings > BEGINNINGS;
  }

  /** One step; true when the best day is a better one now. */
  iterate(): boolean {
    const { day, current, currentFinish, finish, memory, random: stream } = this;
    const { board } = day;
    const isAnew = this.idle >= this.stuckAfter;
    const slot = memory[this.steps % MEMORY]!;
    this.steps += 1;
    if (isAnew) {
      this.beginnings += 1;
      this.idle = 0;
    }
    const isMoved = isAnew
      ? this.beginElsewhere()
      : stream.next() < AS_BEFORE
        ? this.asBefore()
        : this.replace();
    const more = moreOf(board, current);
    if (!isMoved || more < 0) {
      board.copy(current);
      this.idle += 1;
      return false;
    }
    readFinish(board, this.own, finish);
    const than = compareFinishes(finish, currentFinish);
    if (!isAnew && more === 0 && than > 0 && compareFinishes(finish, slot) > 0) {
      board.copy(current);
      this.idle += 1;
      return false;
    }
    current.copy(board);
    Object.assign(currentFinish, finish);
    // What another beginning, or a day of less worth, was like is no measure any more.
    if (isAnew || more > 0) for (const one of memory) Object.assign(one, finish);
    else if (compareFinishes(finish, slot) < 0) Object.assign(slot, finish);
    this.idle = than < 0 || more > 0 || isAnew ? 0 : this.idle + 1;
    if (more === 0 && compareFinishes(finish, this.bestFinish) >= 0) return false;
    this.best.copy(current);
    Object.assign(this.bestFinish, finish);
    this.beginnings = 0;
    return true;
  }

  /** Takes a whole EVA or more off the best day, and fills it otherwise. */
  private beginElsewhere(): boolean {
    const { day, ruin, recreate, random: stream } = this;
    day.board.copy(this.best);
    for (let k = 0; k < LARGE; k += 1) ruin.take();
    recreate.blink = stream.next();
    const isMade = day.settleFrom(this.best) && this.filled();
    recreate.blink = BLINK;
    if (isMade) recreate.fill();
    recreate.blink = OVERLOOKED;
    return isMade;
  }

  /** Takes a few activities off that are near each other, and puts back what is out; false when the rest does not hold. */
  private replace(): boolean {
    const { day, ruin, random: stream } = this;
    if (stream.next() < AT_LARGE) {
      ruin.take();
      return this.refill();
    }
    const first = this.anyPlaced();
    if (first < 0) return false;
    ruin.remove(first);
    const near = ruin.nearTo(first);
    let left = stream.below(MOST_TAKEN);
    for (let k = 0; k < near.length && left > 0; k += 1)
      if (day.board.placed[near[k]!] === 1 && stream.next() < 0.5) {
        ruin.remove(near[k]!);
        left -= 1;
      }
    return this.refill();
  }

  private refill(): boolean {
    return this.day.settleFrom(this.current) && this.filled();
  }

  private filled(): boolean {
    this.recreate.fill();
    return true;
  }

  /** Holds a start at that of the plan's own schedule, where its crew and EVA are; false when there is none or it does not hold. */
  private asBefore(): boolean {
    const { day, own, random: stream } = this;
    const { board, problem } = day;
    const from = stream.below(problem.activities);
    for (let k = 0; k < problem.activities; k += 1) {
      const a = (from + k) % problem.activities;
      if (!isByOwnCrew(board, own, a) || board.earliest[a] === own.startS[a]) continue;
      const startS = own.startS[a]!;
      if (board.floorS[a]! > startS) board.floorS[a] = NO_FLOOR;
      else if (startS > board.earliest[a]! && startS <= board.latest[a]!) board.floorS[a] = startS;
      else continue;
      return day.settle();
    }
    return false;
  }

  /** An activity that is placed: of the outing with the worst margin, or any; -1 when there is none. */
  private anyPlaced(): number {
    const { random: stream } = this;
    const { board, problem } = this.day;
    if (board.count === 0) return -1;
    const worst = stream.next() < AT_THE_WORST ? this.worstRoute() : -1;
    if (worst >= 0) {
      let slot = board.next[board.head + worst]!;
      for (let skip = stream.below(board.onRoute[worst]!); skip > 0; skip -= 1) slot = board.next[slot]!;
      return board.nodeOf[slot]!;
    }
    let a = stream.below(problem.activities);
    while (board.placed[a] === 0) a = a + 1 === problem.activities ? 0 : a + 1;
    return a;
  }

  private worstRoute(): number {
    const { board, problem } = this.day;
    let worst = -1;
    let least = Infinity;
    for (let r = 0; r < problem.routes; r += 1) {
      if (board.onRoute[r] === 0) continue;
      const margin = marginOf(board, r);
      if (margin >= least) continue;
      worst = r;
      least = margin;
    }
    return worst;
  }
}

/** Above 0 where `a` has more done than `b`: must-do work, worth, and tasks that are worth nothing. */
function moreOf(a: Board, b: Board): number {
  return b.mustOut - a.mustOut || a.worth - b.worth || a.count - b.count;
}

/** The one on which most is done, of several that is better by the rest of the score. */
function bestOf(days: readonly Board[], own: Own): Board {
  const read = days.map((board) => {
    const finish = none();
    readFinish(board, own, finish);
    return { board, finish };
  });
  return read.reduce((a, b) => {
    return (moreOf(a.board, b.board) || compareFinishes(b.finish, a.finish)) < 0 ? b : a;
  }).board;
}

const none = (): Finish => ({
  worstMargin: -Infinity,
  changes: Infinity,
  walkM: Infinity,
  finishS: Infinity,
});
