import { gridTo, type Random } from "../../kernel/index.ts";
import type { Schedule } from "../../plan/index.ts";
import { Board, NO_FLOOR } from "../network/board.ts";
import { Day } from "../network/day.ts";
import { loadSchedule } from "../network/placing.ts";
import type { Problem } from "../problem/problem.ts";
import { BLINK, Recreate } from "../search/recreate.ts";
import { Ruin } from "../search/ruin.ts";
import { restretch } from "./restretch.ts";
import { CAUTIONS, type DayTrial, type Sampled } from "./trial.ts";
import { type Wish, valueOf } from "../simulate/value.ts";

/** Part of the ruins that are large, of the small ones those that are a string of one route, and how long a small one is on average. */
const LARGE = 0.2;
const STRINGS = 0.6;
const SMALL = 1.5;
/**
 * Half of the time each left-out task is offered with a chance from this one (with many tasks, and with few) up to all: what fills the day
 * need not be the greediest, and of what there is room for at likely durations some had better be left out.
 */
const OFFERED = 0.6;
const OFFERED_FEW = 0.2;
/** Tasks that are few. */
const FEW = 8;
/** Half of the time a place is overlooked with this chance: of two days of the same tasks the one that is done earliest need not do most. */
const OVERLOOKED = 0.35;
/** And with this chance something is first put anywhere at all. */
const ANYWHERE = 0.3;
/** That is what was just taken off with so much chance over the number of tasks: the fewer there are, the more the order is what matters. */
const REPLACED = 3;
/** With this chance an EVA goes out later, by as much as this at most, s, half of the time with nothing else changed; and with this one all that is held back is let go. */
const OUT_LATER = 0.1;
const NOTHING_ELSE = 0.5;
const MOST_LATER_S = 3600;
const OUT_SOON = 0.1;
/**
 * With these chances, with many tasks and with few, a candidate is played by a crew of any other caution: a day that meets the wish with a
 * careful crew alone is not on the way of one that is not.
 */
const OTHER_CREW = 0.05;
const OTHER_CREW_FEW = 0.4;
/** Temperature at the start and at the end of a chain, in mean worths of a task. */
const HOT = 0.25;
const COLD = 0.0125;
/** A candidate is dropped early when it is behind by more than this, in mean worths, and twice the temperature. */
const BEHIND = 0.4;

/** 1 with few tasks, and the less the more there are: the fewer, the more it matters what is left out of a day that has room for it. */
export function fewness({ activities }: Problem): number {
  return Math.min(1, FEW / Math.max(1, activities));
}

/** Hears of every schedule that was played to the end. */
export type Note = (board: Board, sampled: Sampled) => void;

/**
 * Ruin and recreate on a stretched problem, accepted by what the schedule comes to on the common days: the worth that is done, not the
 * worth that is planned. What is planned bounds what is done, so most candidates need not be played.
 */
export class Chain {
  /** Stretch by activity. */
  readonly share: Float64Array;
  /** How careful the crew is taken to be. */
  private caution: number;
  best = -Infinity;
  private readonly problem: Problem;
  private readonly day: Day;
  private readonly ruin: Ruin;
  private readonly recreate: Recreate;
  private readonly current: Board;
  private now: Sampled | null = null;
  /** Something that was taken off last. */
  private taken = 0;
  private readonly mean: number;
  private readonly random: Random;
  private readonly trial: DayTrial;
  private readonly wish: Wish;
  private readonly note: Note;

  constructor(
    base: Problem,
    share: Float64Array,
    from: Schedule | null,
    random: Random,
    trial: DayTrial,
    wish: Wish,
    note: Note,
    caution: number,
  ) {
    this.share = share;
    this.caution = caution;
    this.random = random;
    this.trial = trial;
    this.wish = wish;
    this.note = note;
    this.problem = restretch(base, (a) => share[a]!);
    this.day = new Day(this.problem);
    this.ruin = new Ruin(this.day, random);
    this.recreate = new Recreate(this.day, random, true);
    this.current = new Board(this.problem);
    this.recreate.insertion.base = this.current.version;
    this.mean = base.worth.reduce((sum, one) => sum + one, 0) / Math.max(1, base.activities);
    if (from) {
      loadSchedule(this.day, from);
      this.holdEgress(from);
    }
    this.recreate.fill();
    this.current.copy(this.day.board);
    if (this.trial.lay(this.day.board, true) && this.day.board.mustOut === 0) this.judge(-Infinity, 0);
  }

  /** One ruin and recreate, or an EVA that goes out later; `share` of the chain is done, 0 to 1. */
  iterate(share: number): void {
    const { day, random, current } = this;
    const { board } = day;
    const later = random.next() < OUT_LATER;
    if (!(later && random.next() < NOTHING_ELSE) && !this.makeAnew()) {
      board.copy(current);
      return;
    }
    if (later) this.goOutLater();
    const temperature = HOT * this.mean * (COLD / HOT) ** share;
    const limit = this.now ? valueOf(this.wish, this.now) + temperature * Math.log(random.next()) : -Infinity;
    const may = board.mustOut === 0 && board.worth >= limit && this.trial.lay(board, true);
    if (!may || !this.judge(limit, BEHIND * this.mean + 2 * temperature)) board.copy(current);
  }

  /** Takes something off and fills the day again; false where it does not hold without. */
  private makeAnew(): boolean {
    const { day, random } = this;
    const { board } = day;
    const seed = this.takeOff();
    if (random.next() < OUT_SOON) board.floorS.fill(NO_FLOOR);
    if (!day.settleFrom(this.current)) return false;
    const offered = OFFERED + fewness(this.problem) * (OFFERED_FEW - OFFERED);
    this.recreate.offered = random.next() < 0.5 ? offered + (1 - offered) * random.next() : 1;
    this.recreate.blink = random.next() < 0.5 ? OVERLOOKED : BLINK;
    if (random.next() < ANYWHERE) this.placeAnywhere();
    if (board.placed[seed] === 0 && random.next() < 0.5) this.recreate.place(seed, 0);
    this.recreate.fill();
    return true;
  }

  /** Plays what lies on the trial's day; true when it is taken. */
  private judge(limit: number, tolerance: number): boolean {
    const { wish, trial, random } = this;
    const other = OTHER_CREW + fewness(this.problem) * (OTHER_CREW_FEW - OTHER_CREW);
    const varies = trial.leavesOut && random.next() < other;
    const caution = varies ? CAUTIONS[random.below(CAUTIONS.length)]! : this.caution;
    let sampled = trial.play(wish, this.now, tolerance, caution);
    if (!sampled) return false;
    if (valueOf(wish, sampled) > this.best) sampled = trial.varied(wish, sampled);
    this.note(trial.day.board, sampled);
    const value = valueOf(wish, sampled);
    if (value < limit) return false;
    this.caution = sampled.caution;
    this.now = sampled;
    this.best = Math.max(this.best, value);
    this.current.copy(this.day.board);
    return true;
  }

  /** Takes something off and gives where that began. */
  private takeOff(): number {
    const { random, problem, ruin } = this;
    const { board } = this.day;
    if (board.count === 0 || random.next() < LARGE) {
      ruin.take();
      return ruin.seed;
    }
    const count = 1 + Math.floor(-Math.log(1 - random.next()) * SMALL);
    if (random.next() < STRINGS) {
      const list: number[] = [];
      let s = problem.slotStart[this.anyPlaced()]!;
      for (let k = 0; k < count && s < board.head && board.lane[s]! >= 0; k += 1) {
        list.push(board.nodeOf[s]!);
        s = board.next[s]!;
      }
      for (const a of list) ruin.remove(a);
      // Nothing is taken of work without crew.
      this.taken = list[random.below(Math.max(1, list.length))] ?? this.taken;
    } else
      for (let k = 0; k < count && board.count > 0; k += 1) {
        this.taken = this.anyPlaced();
        ruin.remove(this.taken);
      }
    return random.below(problem.activities);
  }

  /** Puts something that one crew member does alone at any place on a route where every rule holds: what costs least may never go there. */
  private placeAnywhere(): void {
    const { random, problem, day } = this;
    const { board } = day;
    // What was just taken off goes to another place than the one it came from, or something new comes in.
    const again = random.next() < Math.min(0.5, REPLACED / problem.activities);
    const a = again ? this.taken : random.below(problem.activities);
    const first = problem.choiceStart[a]!;
    const choices = problem.choiceStart[a + 1]! - first;
    if (choices === 0 || problem.needs[a]!.length > 0 || !this.recreate.isSingle(a)) return;
    const r = problem.choiceRoutes[problem.choiceAt[first + random.below(choices)]!]!;
    let behind = board.head + r;
    for (let k = random.below(board.onRoute[r]! + 1); k > 0; k -= 1) behind = board.next[behind]!;
    // Where slack alone decides, what does not fit is not taken back by itself.
    if (!day.tryLink(a, [behind], problem.evaOfRoute[r]!) && board.placed[a] === 1) day.unlink(a);
  }

  /**
   * Lets an EVA go out later than it has to: time before a window that is spare on the day is lost, time after it won, as the longest
   * duration counts from egress.
   */
  private goOutLater(): void {
    const { random, problem, day } = this;
    const { board } = day;
    const e = random.below(problem.evas);
    const first = this.firstOn(e);
    let mostS = MOST_LATER_S;
    for (const a of first) mostS = Math.min(mostS, board.latest[a]! - board.earliest[a]!);
    // More often a little than much.
    const laterS = gridTo(Math.floor(random.next() ** 2 * (mostS + problem.gridS)), problem.gridS);
    if (first.length === 0 || laterS <= 0 || laterS > mostS) return;
    const startS = first.map((a) => board.earliest[a]! + laterS);
    first.forEach((a, k) => (board.floorS[a] = startS[k]!));
    if (day.settle()) return;
    for (const a of first) board.floorS[a] = NO_FLOOR;
    day.settle();
  }

  /** Goes out as late as `from` does. */
  private holdEgress(from: Schedule): void {
    const { problem, day } = this;
    const { board } = day;
    const startOf = new Map(from.placements.map((one) => [one.task, one.startS as number]));
    const held: number[] = [];
    for (let e = 0; e < problem.evas; e += 1)
      for (const a of this.firstOn(e)) {
        const startS = startOf.get(problem.plan.tasks[a]!.id) ?? NO_FLOOR;
        if (startS <= board.earliest[a]! || board.floorS[a] !== NO_FLOOR) continue;
        board.floorS[a] = startS;
        held.push(a);
      }
    if (held.length === 0 || day.settle()) return;
    for (const a of held) board.floorS[a] = NO_FLOOR;
    day.settle();
  }

  /** What is done first on each route of an EVA. */
  private firstOn(e: number): number[] {
    const { problem, day } = this;
    const { board } = day;
    const first = new Set<number>();
    for (let r = problem.routeStart[e]!; r < problem.routeStart[e + 1]!; r += 1)
      if (board.onRoute[r]! > 0) first.add(board.nodeOf[board.next[board.head + r]!]!);
    return [...first];
  }

  private anyPlaced(): number {
    const { random, problem } = this;
    const { placed } = this.day.board;
    let a = random.below(problem.activities);
    while (placed[a] === 0) a = a + 1 === problem.activities ? 0 : a + 1;
    return a;
  }
}
