import { invariant, type Random, random } from "../../kernel/index.ts";
import type { Schedule } from "../../plan/index.ts";
import { Board } from "../network/board.ts";
import { Day } from "../network/day.ts";
import { loadSchedule } from "../network/placing.ts";
import type { Problem } from "../problem/problem.ts";
import { Cooling } from "../search/cooling.ts";
import { type SearchParameters, searchParameters } from "../search/parameters.ts";
import { better, type Value } from "../search/score.ts";
import { groundOf } from "./ground.ts";
import { Pool } from "./pool.ts";
import { Refill } from "./refill.ts";
import { Strings } from "./strings.ts";
import { Tours } from "./tours.ts";

/**
 * What is otherwise than on a board: turns are so quick that ruins of a few short strings, and a cooling that ends hotter, get further. Chosen on
 * some of the instances of test/bench/MEASURED.md, at one second and two seeds.
 */
const ON_TOURS: Partial<SearchParameters> = { cold: 0.1, longestString: 5, takenOnAverage: 6 };
/** What a ruin began around comes first in this part of the turns, where it is left out. */
const SEED_FIRST = 0.5;

/**
 * The search of a day whose routes do not depend on each other (isApart): ruin and recreate under annealing as in search/anneal, on tours laid
 * end to end, several times as many turns a second as on a board; and a pool of good routes.
 */
export class TourSearch {
  readonly bestValue: Value = { mustOut: Infinity, worth: -1, endsS: 0 };
  private readonly problem: Problem;
  private readonly parameters: SearchParameters;
  private readonly random: Random;
  private readonly trial: Tours;
  private readonly current: Tours;
  private readonly bestTours: Tours;
  private readonly strings: Strings;
  private readonly refill: Refill;
  private readonly pool: Pool | null;
  private readonly cooling: Cooling;
  /** The best tours as a board, and whether there are better ones now. */
  private readonly day: Day;
  private readonly board: Board;
  private isStale = true;
  /** Worth that counts while searching: a must-do task may be left out for a step, but for a high price. */
  private readonly value: Float64Array;
  private readonly mean: number;
  private readonly musts: number;
  /** By route and by activity: 1 for what a turn has changed, and taken off. */
  private readonly open: Uint8Array;
  private readonly taken: Uint8Array;
  /** 1 for every route. */
  private readonly all: Uint8Array;
  private readonly seen: Seen = { sum: 0, value: { mustOut: 0, worth: 0, endsS: 0 } };
  private currentSum = 0;
  private currentEndsS = 0;
  private currentMustOut = 0;
  private bestSum = 0;
  private recombined = 0;

  constructor(problem: Problem, seed: number, from: Schedule | null) {
    this.problem = problem;
    const parameters = searchParameters(ON_TOURS);
    this.parameters = parameters;
    this.random = random(seed);
    const ground = groundOf(problem);
    this.trial = new Tours(ground);
    this.current = new Tours(ground);
    this.bestTours = new Tours(ground);
    const total = problem.worth.reduce((sum, one) => sum + one, 0);
    this.mean = Math.max(1, total / Math.max(1, problem.activities));
    const dear = this.mean + problem.worth.reduce((most, one) => Math.max(most, one), 0);
    this.value = problem.worth.map((worth, a) => worth + dear * problem.must[a]!);
    this.musts = problem.must.reduce((sum, one) => sum + one, 0);
    this.strings = new Strings(this.trial, this.random, parameters);
    this.refill = new Refill(this.trial, this.random, this.value);
    this.pool = problem.routes > 1 ? new Pool(ground, this.value) : null;
    this.cooling = new Cooling(parameters, problem.activities);
    this.day = new Day(problem);
    this.board = new Board(problem);
    this.open = new Uint8Array(problem.routes);
    this.all = new Uint8Array(problem.routes).fill(1);
    this.taken = new Uint8Array(problem.activities);
    if (from) this.layOut(from);
    this.fillAll();
  }

  /** The best day so far. */
  get best(): Board {
    if (this.isStale) this.publish();
    return this.board;
  }

  /** One ruin and recreate; `share` of the run is done, 0 to 1. */
  iterate(share: number): void {
    const { open, taken, seen, parameters } = this;
    if (this.pool && share * parameters.recombined >= this.recombined + 1) {
      this.recombined += 1;
      this.recombine(this.pool);
    }
    open.fill(0);
    taken.fill(0);
    const seed = this.seed();
    this.strings.take(seed, open, taken);
    this.refill.fill(open, taken, this.random.next() < SEED_FIRST ? seed : -1);
    this.read();
    const { hot, cold, endShare } = parameters;
    const temperature = hot * this.mean * (cold / hot) ** this.cooling.at(share);
    const laterS = seen.value.endsS - this.currentEndsS;
    const gain = seen.sum - this.currentSum - endShare * this.mean * laterS;
    if (gain > temperature * Math.log(this.random.next())) this.accept();
    else this.trial.takeOver(this.current, open);
  }

  /** Where a ruin begins: anywhere, or around must-do work that is left out. */
  private seed(): number {
    const { problem, random: stream, parameters, trial } = this;
    let a = stream.below(problem.activities);
    if (this.currentMustOut === 0 || stream.next() >= parameters.ejected) return a;
    for (let k = 0; k < problem.activities && (problem.must[a] === 0 || trial.routeOf[a]! >= 0); k += 1)
      a = a + 1 === problem.activities ? 0 : a + 1;
    return a;
  }

  /** Goes on from the best mix of routes seen, when that is better than all so far. */
  private recombine(pool: Pool): void {
    const { trial } = this;
    const mix = pool.recombine(this.bestSum);
    if (!mix) return;
    trial.clear();
    for (const [r, activities] of mix) trial.lay(r, activities);
    this.fillAll();
  }

  /** Begins with the order of a schedule. */
  private layOut(from: Schedule): void {
    const { day, problem, trial } = this;
    const { board } = day;
    loadSchedule(day, from);
    for (let r = 0; r < problem.routes; r += 1) {
      const activities: number[] = [];
      for (let s = board.next[board.head + r]!; s < board.head; s = board.next[s]!)
        activities.push(board.nodeOf[s]!);
      trial.lay(r, activities);
    }
  }

  /** Fills what stands wherever there is room, and goes on from there. */
  private fillAll(): void {
    this.open.fill(1);
    this.taken.fill(1);
    this.refill.fill(this.open, this.taken);
    this.read();
    this.accept();
  }

  /** Reads what the trial is worth. */
  private read(): void {
    const { problem, trial, seen, value } = this;
    const { worth, must } = problem;
    const { node, earliest, length, width, ground } = trial;
    seen.sum = 0;
    seen.value.worth = 0;
    seen.value.mustOut = this.musts;
    seen.value.endsS = 0;
    for (let r = 0; r < problem.routes; r += 1) {
      const first = r * width;
      if (length[r] === 0) continue;
      for (let k = first + length[r]!; k > first; k -= 1) {
        const a = node[k]!;
        seen.sum += value[a]!;
        seen.value.worth += worth[a]!;
        seen.value.mustOut -= must[a]!;
      }
      seen.value.endsS += earliest[first + length[r]! + 1]! - ground.outS[r]!;
    }
  }

  /** Goes on from the trial. */
  private accept(): void {
    const { trial, current, open, seen, bestValue } = this;
    current.takeOver(trial, open);
    this.currentSum = seen.sum;
    this.currentEndsS = seen.value.endsS;
    this.currentMustOut = seen.value.mustOut;
    if (seen.sum >= this.parameters.noted * this.bestSum) this.pool?.note(trial, open, seen.sum);
    if (!better(seen.value, bestValue)) return;
    this.bestTours.takeOver(trial, this.all);
    Object.assign(bestValue, seen.value);
    this.bestSum = seen.sum;
    this.isStale = true;
  }

  /** Lays the best tours on the board. */
  private publish(): void {
    const { day, bestTours, problem } = this;
    const { board } = day;
    for (let a = 0; a < problem.activities; a += 1) if (board.placed[a] === 1) board.unlink(a);
    for (let r = 0; r < problem.routes; r += 1) {
      let behind = board.head + r;
      for (let k = 1; k <= bestTours.length[r]!; k += 1) {
        const a = bestTours.node[r * bestTours.width + k]!;
        board.link(a, [behind], problem.evaOfRoute[r]!);
        behind = problem.slotStart[a]!;
      }
    }
    invariant(day.settle(), "tours that hold settle as a day");
    this.board.copy(board);
    this.isStale = false;
  }
}

/** What a day is worth, and what that counts while searching. */
interface Seen {
  sum: number;
  readonly value: Value;
}
