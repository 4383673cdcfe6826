import { type Random, random } from "../../../kernel/index.ts";
import type { Schedule } from "../../../plan/index.ts";
import { Board } from "../../network/board.ts";
import { Day } from "../../network/day.ts";
import { insertAll, loadSchedule, scheduleOf } from "../../network/placing.ts";
import { type PlacedActivity, read, type Verifier } from "../../network/verify.ts";
import { Waiting, type Waits } from "../../network/waiting.ts";
import type { Problem } from "../../problem/problem.ts";
import { Recreate } from "../../search/recreate.ts";
import { type CandidatePlace, placesOf } from "./places.ts";

/** Places tried between two breaths. */
const BREATH = 50;
/** Orders with starts held back that one place may use up. */
const WAITS_A_PLACE = 24;

/** How many places, and how many orders with starts held back, may be tried yet. */
export interface Budget extends Waits {
  tries: number;
}

/** How tasks are put on: what chance decides by, and whether quickly (see Insertion). */
export interface Putting {
  readonly stream?: Random;
  readonly quick?: boolean;
}

/**
 * A schedule tried on a day of its own: laid in its order, tasks put on and taken off while what stands slides, read off, and taken back.
 * Under mend, why, the late table, the bench's reasons and the sliding bands. A cause is lifted by a trial of the problem without it
 * (`RelaxedProblem`).
 *
 * Where every start is taken as it is there is no order to slide and nothing to take back: there the maker's `Verifier` answers of
 * whole sets (what is nearest in time, what a mend brings back, what fits ahead of time), or of one more task beside the set tested last (the
 * fixed bands).
 */
export class Trial {
  readonly day: Day;
  readonly problem: Problem;
  private readonly putting: Putting;
  private recreate: Recreate | null = null;
  private waiting: Waiting | null = null;
  private before: Board | null = null;

  constructor(problem: Problem, putting: Putting = {}) {
    this.problem = problem;
    this.putting = putting;
    this.day = new Day(problem);
  }

  /** A trial of `schedule`; null where not all of it can be laid in its order. */
  static of(problem: Problem, schedule: Schedule, putting: Putting = {}): Trial | null {
    const trial = new Trial(problem, putting);
    return trial.lay(schedule) === 0 ? trial : null;
  }

  /** Lays `schedule` on the empty day, and gives how many placements were left out. */
  lay(schedule: Schedule): number {
    return loadSchedule(this.day, schedule);
  }

  /** Links `order` on the empty day, times not worked out; false where a unit of equipment is missing. */
  insert(order: readonly PlacedActivity[]): boolean {
    return insertAll(this.day, order);
  }

  /**
   * Links `order` on the emptied day, each on its lanes (`laneOf`, by slot), and works the times out; false where one has no lane or a
   * rule does not hold.
   */
  castAnew(order: readonly PlacedActivity[], laneOf: Int32Array): boolean {
    const { board, problem } = this.day;
    const { slotStart, crewCount, evaOfRoute } = problem;
    for (let a = 0; a < problem.activities; a += 1) if (board.placed[a] === 1) board.unlink(a);
    for (const { activity: a, startS } of order) {
      const lanes = laneOf.subarray(slotStart[a]!, slotStart[a + 1]!);
      if (lanes.includes(-1)) return false;
      board.earliest[a] = startS;
      const behind = lanes.map((lane) => board.prev[board.tail + lane]!);
      board.link(a, behind, crewCount[a] === 0 ? -1 : evaOfRoute[lanes[0]!]!);
    }
    return this.day.settle();
  }

  /** None of `placings` begins sooner than it does there; false where the day does not hold so. */
  holdBack(placings: readonly PlacedActivity[]): boolean {
    for (const { activity, startS } of placings) this.day.board.floorS[activity] = startS;
    return this.day.settle();
  }

  /** Holds starts back on purpose until the day holds; see Waiting. */
  *wait(budget: Waits): Generator<void, boolean> {
    if (this.problem.checkLevel !== "rules") return false;
    this.waiting ??= new Waiting(this.problem);
    return yield* this.waiting.settle(this.day, budget);
  }

  /** Puts `activity` on where it costs least, with all that it needs, or nothing at all. */
  place(activity: number): boolean {
    return this.recreating().place(activity, 0);
  }

  /** True when slack leaves a place for `activity`; what `day` then says it broke is what stands against the best of them. */
  hasSlackFor(activity: number): boolean {
    return this.recreating().insertion.view(activity, 0);
  }

  /** Puts on what is left out, in an order that chance has a part in. */
  fill(): void {
    this.recreating().fill();
  }

  /**
   * Puts `group` on one after the other, what stands sliding in its order: every place of each where slack does not rule it
   * out, roomiest first; then the same places with starts held back on purpose, as far as the budget goes. True with all of it placed,
   * false with the day as it was; null, and the day spoilt, when the budget of places is gone.
   */
  *placeGroup(group: readonly number[], budget: Budget): Generator<void, boolean | null> {
    const { day } = this;
    const [activity, ...rest] = group;
    if (activity === undefined) return true;
    const places = placesOf(day, activity, budget.tries + 1).sort((a, b) => b.roomS - a.roomS);
    for (const { behind, eva } of places) {
      budget.tries -= 1;
      if (budget.tries < 0) return null;
      if (budget.tries % BREATH === 0) yield;
      if (!day.tryLink(activity, behind, eva)) continue;
      const all = yield* this.placeGroup(rest, budget);
      if (all !== false) return all;
      day.unlink(activity);
    }
    // Where times alone decide, earliest starts are never worse than later ones.
    if (this.problem.checkLevel !== "rules" || budget.waits <= 0) return false;
    return yield* this.placeWaiting(activity, rest, places, budget);
  }

  /** The same with `activity` at each of `places` in turn and starts held back on purpose, then `rest`. */
  private *placeWaiting(
    activity: number,
    rest: readonly number[],
    places: readonly CandidatePlace[],
    budget: Budget,
  ): Generator<void, boolean | null> {
    const { day } = this;
    const before = new Board(this.problem);
    before.copy(day.board);
    for (const { behind, eva } of places) {
      if (budget.waits <= 0) break;
      yield;
      const here = { waits: Math.min(budget.waits, WAITS_A_PLACE) };
      budget.waits -= here.waits;
      day.board.link(activity, behind, eva);
      const holds = yield* this.wait(here);
      budget.waits += here.waits;
      const all = holds ? yield* this.placeGroup(rest, budget) : false;
      if (all !== false) return all;
      day.board.copy(before);
    }
    return false;
  }

  /** Takes `activities` off; times are not worked out (see settleSinceMark). */
  drop(activities: Iterable<number>): void {
    const { board } = this.day;
    for (const a of activities) if (board.placed[a] === 1) board.unlink(a);
  }

  /** Takes off what needs something that is not there. */
  dropUnmet(): void {
    const { board, problem } = this.day;
    for (let again = true; again;) {
      again = false;
      for (let a = 0; a < problem.activities; a += 1) {
        if (board.placed[a] === 0 || problem.needs[a]!.every((b) => board.placed[b] === 1)) continue;
        this.day.unlink(a);
        again = true;
      }
    }
  }

  /** Keeps the day as it is now, to be taken back to. */
  mark(): void {
    this.marked().copy(this.day.board);
  }

  /** The day as it was marked last. */
  restore(): void {
    this.day.board.copy(this.marked());
  }

  /** Works the day out after something was dropped since the mark; false where it does not hold without. */
  settleSinceMark(): boolean {
    return this.day.settleFrom(this.marked());
  }

  /** What is on the day, each at its earliest start. */
  get schedule(): Schedule {
    return scheduleOf(this.day.board);
  }

  get placings(): PlacedActivity[] {
    return read(this.problem, this.schedule).placings;
  }

  /** What is on the day, by the choices of the verifier's problem, where all its rules hold at these starts; null where one does not. */
  soundBy(verifier: Verifier): PlacedActivity[] | null {
    const { placings } = read(verifier.problem, this.schedule);
    return verifier.holds(placings) ? placings : null;
  }

  private recreating(): Recreate {
    if (this.recreate) return this.recreate;
    const { stream = random(0), quick = false } = this.putting;
    this.recreate = new Recreate(this.day, stream, quick);
    if (quick) this.recreate.insertion.base = this.marked().version;
    return this.recreate;
  }

  private marked(): Board {
    this.before ??= new Board(this.problem);
    return this.before;
  }
}
