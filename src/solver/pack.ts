import type { HandedDay } from "../answers/index.ts";
import type { Plan, Schedule } from "../plan/index.ts";
import { Anneal } from "./search/anneal.ts";
import { isApart, TourSearch } from "./tours/index.ts";
import { Board } from "./network/board.ts";
import { compile } from "./problem/compile.ts";
import { withStartsOf } from "./problem/known.ts";
import { Day } from "./network/day.ts";
import { loadSchedule, scheduleOf } from "./network/placing.ts";
import { missingOver } from "./problem/groups.ts";
import type { Problem } from "./problem/problem.ts";
import { projectOf, projectRun } from "./project/index.ts";
import { searchParameters } from "./search/parameters.ts";
import { Refine } from "./search/refine.ts";
import { Proof } from "./bound/index.ts";
import { type PackRun, type PackSettings, type RunProgress, TURNS_A_SECOND } from "./search/run.ts";

/** Time between two looks at the clock, and iterations at most. */
const LOOK_S = 0.002;
const MOST_IN_BURST = 32;
/** Where iterations are counted a burst is always as long, so that the clock decides nothing. */
const COUNTED_BURST = 4;
/** Part of the search that is kept for all that decides beside must-do work and worth, where more than slack counts. */
const REFINED = 0.04;
/** Part of the search after which the proof has a first go, and part of the proof that this is: easy plans are done at once. */
const FIRST_GO = 0.1;
/** Parts of the search after which a run hands its day on to others and hears of theirs. */
const MEETINGS: readonly number[] = [0.3, 0.5, 0.7, 0.85];

/**
 * A run on `plan`. Every rule of RULES.md holds in every schedule it gives; its EVAs are flown in the order of `settings.from`. Where nobody goes out and everything must be
 * done, only the finish is left to better: that is project scheduling, and has a search of its own.
 */
export function packRun(plan: Plan, settings: PackSettings): PackRun {
  const project = projectOf(plan);
  return project ? projectRun(project, settings) : runOn(packed(plan, settings.from), settings);
}

/**
 * The problem of a pack that begins with `from`: starts on the plan's grid, so that what is packed can be told in its steps; those
 * that `from` has beside it may be kept only where it cannot be laid on the grid as it is.
 */
function packed(plan: Plan, from: Schedule | undefined): Problem {
  const problem = compile(plan, from);
  if (!from) return problem;
  const asGiven = withStartsOf(problem, from);
  if (asGiven === problem) return problem;
  return loadSchedule(new Day(problem), from) <= loadSchedule(new Day(asGiven), from) ? problem : asGiven;
}

/**
 * A run on a compiled problem: search for must-do work and worth, proof as far as it is asked for, and what is left of the time, or all once
 * everything is placed or nothing is worth more, for the rest of the score.
 */
export function runOn(problem: Problem, settings: PackSettings): PackRun {
  return new CrewRun(problem, settings);
}

class CrewRun implements PackRun {
  private readonly problem: Problem;
  private readonly seed: number;
  private readonly clock: () => number;
  private readonly budget: Budget;
  private readonly startS: number;
  private readonly search: Anneal | TourSearch;
  private readonly proof: Proof;
  private readonly proving: Generator<void>;
  private refine: Refine | null = null;
  /** The day that the search began with. */
  private readonly begun: Board;
  private readonly mustTotal: number;
  /** Part of the search that is kept for the rest of the score. */
  private readonly kept: number;
  private burst: number;
  private iterations = 0;
  private turns = 0;
  private provingS = 0;
  private exhausted: boolean;
  private improvements = 1;
  /** Meetings that the run came to; all of them where it is alone. */
  private met: number;
  private stopped: RunProgress["stopped"] = null;
  /** Why nothing is worth more; null while something may be. */
  private settled: "all placed" | "proved" | null = null;

  constructor(problem: Problem, settings: PackSettings) {
    this.problem = problem;
    this.seed = settings.seed;
    this.clock = settings.clock;
    this.budget = budgetOf(settings);
    this.startS = this.clock();
    const from = settings.from ?? null;
    this.search = isApart(problem)
      ? new TourSearch(problem, settings.seed, from)
      : new Anneal(problem, settings.seed, from, searchParameters(), "in steps");
    this.proof = new Proof(problem);
    this.begun = new Board(problem);
    this.begun.copy(this.search.best);
    this.proving = this.proof.run(() => this.board);
    this.mustTotal = problem.must.reduce((sum, one) => sum + one, 0) + missingOver(problem, () => false);
    this.kept = problem.checkLevel === "slack" ? 0 : REFINED;
    this.burst = this.isCounted ? COUNTED_BURST : 1;
    this.exhausted = this.budget.proveSeconds <= 0;
    this.met = settings.meets ? 0 : MEETINGS.length;
  }

  step(sliceS: number): boolean {
    const { clock, problem } = this;
    const sliceEndS = clock() + sliceS;
    // However short the slice, each call gets somewhere.
    for (let worked = false; ; worked = true) {
      const nowS = clock();
      if (this.stopped) return false;
      if (this.board.count === problem.activities) this.settled ??= "all placed";
      if ((worked && nowS >= sliceEndS) || this.isMeeting(nowS)) return true;
      this.turn(nowS);
    }
  }

  best(): Schedule {
    return scheduleOf(this.board);
  }

  progress(): RunProgress {
    const { board, proof, mustTotal } = this;
    const done = board.count === this.problem.activities;
    return {
      seconds: this.clock() - this.startS,
      iterations: this.iterations,
      worth: board.worth,
      placed: board.count,
      mustPlaced: mustTotal - board.mustOut,
      mustTotal,
      bound: done ? board.worth : Number.isFinite(proof.worth) ? proof.worth : null,
      improvements: this.improvements,
      stopped: this.stopped,
    };
  }

  handOn(): HandedDay | null {
    const { search } = this;
    if (search instanceof TourSearch || !this.isMeeting(this.clock())) return null;
    this.met += 1;
    const { mustOut, worth, endsS } = search.valueInHand;
    return { schedule: scheduleOf(search.inHand), value: [-mustOut, worth, -endsS] };
  }

  takeUp(schedule: Schedule): void {
    const { search, problem } = this;
    const day = new Day(problem);
    if (search instanceof TourSearch || loadSchedule(day, schedule) > 0) return;
    const { worth } = search.bestValue;
    search.goOnFrom(day.board);
    if (search.bestValue.worth !== worth) this.improvements += 1;
  }

  /** True where it is time to hand the day in hand on. Tours have none that others could go on from. */
  private isMeeting(nowS: number): boolean {
    const { search, settled } = this;
    const at = MEETINGS[this.met];
    if (at === undefined || settled !== null || search instanceof TourSearch || search.isBeginning)
      return false;
    return this.searched(nowS) >= at * (1 - this.kept);
  }

  /** The best day so far. */
  private get board(): Board {
    return this.refine?.best ?? this.proof.found ?? this.search.best;
  }

  /** True where iterations end the run, not the clock. */
  private get isCounted(): boolean {
    return this.budget.iterations < Infinity;
  }

  /** True once the day stands that the search begins with; else the next better one does. */
  private begins(): boolean {
    const { search } = this;
    if (search instanceof TourSearch || !search.isBeginning) return true;
    const { worth, mustOut, endsS } = search.bestValue;
    search.begin();
    const now = search.bestValue;
    if (now.worth !== worth || now.mustOut !== mustOut || now.endsS !== endsS) this.improvements += 1;
    if (!search.isBeginning) this.begun.copy(search.best);
    return false;
  }

  /** One turn of whatever is next: search, proof, or the rest of the score. */
  private turn(nowS: number): void {
    if (!this.begins()) return;
    const searched = this.searched(nowS);
    const proven = this.settled ? 1 : this.proven();
    if (searched >= 1 && proven >= 1) {
      this.stopped = this.settled ?? (this.iterations >= this.budget.iterations ? "iterations" : "time");
      return;
    }
    const proves = searched >= 1 || (searched >= FIRST_GO && proven < FIRST_GO);
    if (proven < 1 && proves) this.prove(nowS);
    else if (this.settled || searched >= 1 - this.kept) this.better();
    else this.iterate(nowS);
  }

  /** Part of the search that is done; counted in iterations where they are limited, though the clock ends it too. */
  private searched(nowS: number): number {
    const { seconds, iterations } = this.budget;
    const byClock = seconds < Infinity ? (nowS - this.startS - this.provingS) / seconds : 0.5;
    return !this.isCounted || byClock >= 1 ? byClock : this.iterations / iterations;
  }

  /** Part of the proof that is done. */
  private proven(): number {
    const { turns, proveSeconds } = this.budget;
    if (this.exhausted) return 1;
    return turns < Infinity ? this.turns / turns : this.provingS / proveSeconds;
  }

  private iterate(nowS: number): void {
    const { search, clock, budget, problem } = this;
    const byClock = this.searched(nowS);
    let k = 0;
    for (; k < this.burst && this.iterations < budget.iterations && this.settled === null; k += 1) {
      const { worth, mustOut, endsS } = search.bestValue;
      search.iterate(Math.min(1, (this.isCounted ? this.searched(nowS) : byClock) / (1 - this.kept)));
      this.iterations += 1;
      const now = search.bestValue;
      if (now.worth !== worth || now.mustOut !== mustOut || now.endsS !== endsS) this.improvements += 1;
      if (search.best.count === problem.activities) this.settled = "all placed";
    }
    if (!this.isCounted) {
      const inTime = Math.floor((LOOK_S * k) / Math.max(1e-9, clock() - nowS));
      this.burst = Math.max(1, Math.min(MOST_IN_BURST, 2 * this.burst, inTime));
    }
    this.proof.view(this.board);
    if (this.proof.proved) this.settled ??= "proved";
  }

  /** A few steps of betterment by the rest of the score. */
  private better(): void {
    const { problem, seed, budget } = this;
    const refine = (this.refine ??= new Refine(problem, seed, [this.board, this.begun]));
    for (let k = 0; k < COUNTED_BURST && this.iterations < budget.iterations; k += 1) {
      if (this.settled && refine.isDone) break;
      if (refine.iterate()) this.improvements += 1;
      this.iterations += 1;
    }
    if (refine.isDone) this.stopped = this.settled;
  }

  private prove(nowS: number): void {
    const { proof } = this;
    const before = proof.found?.worth;
    this.exhausted = this.proving.next().done === true;
    this.turns += 1;
    this.provingS += this.clock() - nowS;
    if (proof.found?.worth !== before) {
      this.improvements += 1;
      this.refine = null;
    }
    if (proof.proved) this.settled = "proved";
  }
}

/** How much of each a run may use. */
type Budget = Readonly<Record<"iterations" | "seconds" | "turns" | "proveSeconds", number>>;

function budgetOf(settings: PackSettings): Budget {
  const { iterations = Infinity, seconds = Infinity, proveSeconds = 0 } = settings;
  return {
    iterations,
    seconds,
    turns: iterations < Infinity ? proveSeconds * TURNS_A_SECOND : Infinity,
    proveSeconds,
  };
}
