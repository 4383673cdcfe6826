import { type Random, random } from "../../kernel/index.ts";
import type { Schedule } from "../../plan/index.ts";
import { Board } from "../network/board.ts";
import { Day } from "../network/day.ts";
import { Building } from "./building.ts";
import { Cooling } from "./cooling.ts";
import { fillAtFirst } from "./firstday.ts";
import { Linger } from "./linger.ts";
import { loadSchedule } from "../network/placing.ts";
import type { Problem } from "../problem/problem.ts";
import { type SearchParameters, searchParameters } from "./parameters.ts";
import { isCrowded, Recreate } from "./recreate.ts";
import { Ruin } from "./ruin.ts";
import { better, readValue, type Value } from "./score.ts";
import { SearchCounts, type SearchStatistics } from "./statistics.ts";

/** How much dearer must-do work is while a day that was built lacks some that the best day has. */
const MENDING = 5;

/**
 * The search: one trajectory of ruin and recreate under annealing (Schrimpf et al. 2000; Ropke & Pisinger 2006; Christiaens &
 * Vanden Berghe 2020), from a day that its first turns build. Cooled by the share of the run that is done, which the caller gives, as
 * often as its length allows.
 */
export class Anneal {
  readonly day: Day;
  readonly best: Board;
  readonly bestValue: Value = { mustOut: Infinity, worth: -1, endsS: 0 };
  readonly recreate: Recreate;
  /** Hears of each schedule that the search goes on from. */
  onAccept: ((board: Board, value: Value) => void) | null = null;
  private readonly ruin: Ruin;
  private readonly linger: Linger;
  private readonly random: Random;
  private readonly current: Board;
  private readonly currentValue: Value = { mustOut: Infinity, worth: -1, endsS: 0 };
  private readonly value: Value = { mustOut: 0, worth: 0, endsS: 0 };
  private readonly mean: number;
  private readonly mustWeight: number;
  /** True while the day in hand was built and lacks must-do work that the best one has: whatever places it is worth while. */
  private isMending = false;
  private readonly cooling: Cooling;
  private readonly parameters: SearchParameters;
  private readonly isCrowded: boolean;
  /** Builds a day for the search to go on from, where the first one leaves something out; null once that is done. */
  private building: Building | null = null;
  private readonly counts = new SearchCounts();
  /** Fills the first day, where the search begins with none; null once that is done. */
  private beginning: Generator<void, void> | null = null;

  /** With `begins` in steps the caller has `begin` called until the first day stands. */
  constructor(
    problem: Problem,
    seed: number,
    from: Schedule | null,
    parameters: SearchParameters = searchParameters(),
    begins: "whole" | "in steps" = "whole",
  ) {
    this.parameters = parameters;
    this.cooling = new Cooling(parameters, problem.activities);
    this.random = random(seed);
    this.day = new Day(problem);
    this.best = new Board(problem);
    this.current = new Board(problem);
    this.ruin = new Ruin(this.day, this.random, parameters);
    this.linger = new Linger(this.day.board, this.random);
    this.recreate = new Recreate(this.day, this.random, true);
    this.recreate.insertion.base = this.current.version;
    const total = problem.worth.reduce((sum, one) => sum + one, 0);
    this.mean = Math.max(1, total / Math.max(1, problem.activities));
    // While searching a must-do task may be left out for a step, but for a high price.
    this.mustWeight = this.mean + problem.worth.reduce((most, one) => Math.max(most, one), 0);
    this.isCrowded = isCrowded(problem);
    if (from) loadSchedule(this.day, from);
    this.current.copy(this.day.board);
    if (this.day.board.count > 0) {
      this.recreate.fill();
      this.accept();
      return;
    }
    this.beginning = fillAtFirst(this.recreate);
    if (begins === "whole") while (this.isBeginning) this.begin();
    else this.begin();
  }

  /** True while the best of some first days is looked for; turns come after that. */
  get isBeginning(): boolean {
    return this.beginning !== null;
  }

  /** Goes on until there is a better first day, or the best of them stands. */
  begin(): void {
    if (this.beginning?.next().done === false) {
      this.best.copy(this.day.board);
      readValue(this.best, this.bestValue);
      return;
    }
    this.beginning = null;
    const { problem, board } = this.day;
    if (this.isCrowded && problem.evas > 1 && board.count < problem.activities) {
      this.building = new Building(this.recreate, this.random, this.current, this.mustWeight);
      this.cooling.keeps = true;
    }
    this.accept();
  }

  /** The day that the search goes on from. */
  get inHand(): Board {
    return this.current;
  }

  get valueInHand(): Readonly<Value> {
    return this.currentValue;
  }

  /** Goes on from `board`, a day of the same problem that was found elsewhere, where it is better than the one in hand. */
  goOnFrom(board: Board): void {
    if (this.isBeginning || this.building) return;
    this.day.board.adopt(board);
    if (this.gain() > 0) this.accept();
    else this.day.board.copy(this.current);
  }

  /** One ruin and recreate; `share` of the run is done, 0 to 1. */
  iterate(share: number): void {
    const { day, parameters } = this;
    if (this.building) {
      this.cooling.at(share);
      this.build(this.building, share);
      return;
    }
    let around = this.ruined();
    let settles = day.settleFrom(this.current);
    if (!settles && this.ruin.last === "ejected") {
      around = this.ruin.ejectRest();
      settles = around >= 0 && day.settleFrom(this.current);
    }
    // Without what was taken off, crew members may be too far apart or a way longer: such a ruin leads nowhere.
    if (!settles) {
      day.board.copy(this.current);
      this.counts.note(this.ruin.last, "unsettled");
      return;
    }
    this.rebuild(around);
    const { hot, cold } = parameters;
    const temperature = hot * this.mean * (cold / hot) ** this.cooling.at(share);
    if (this.gain() > temperature * Math.log(this.random.next()))
      this.counts.note(this.ruin.last, this.accept() ? "best" : "accepted");
    else {
      day.board.copy(this.current);
      this.counts.note(this.ruin.last, "turned away");
    }
  }

  /** Takes something off; what an emptied EVA is to be begun anew around, -1 where none was emptied. */
  private ruined(): number {
    const { ruin, linger, parameters } = this;
    const anew = this.currentValue.mustOut > 0 ? parameters.begunForMust : parameters.begunAnew;
    const around = linger.helps && this.random.next() < anew ? ruin.takeOuting() : -1;
    if (around < 0) ruin.take();
    if (linger.helps) this.wait();
    return around;
  }

  /** Fills the day again: first `around` what an EVA was emptied for, or where the ruin began. */
  private rebuild(around: number): void {
    const { ruin, recreate, random: stream } = this;
    const { seed } = ruin;
    if (around >= 0) recreate.begin(around, ruin.nearTo(around));
    else if (this.linger.helps && stream.next() < this.parameters.twoAtOnce)
      recreate.placeTwo(seed, ruin.nearTo(seed));
    if (this.day.board.placed[seed] === 0 && stream.next() < 0.5) recreate.place(seed, 0);
    recreate.around = this.isCrowded && stream.next() < this.parameters.around ? ruin.middle : -1;
    recreate.fill();
    recreate.around = -1;
  }

  /** By how much the day as it stands is worth more than the one the turn began with. */
  private gain(): number {
    const { value, currentValue } = this;
    readValue(this.day.board, value);
    const mustWeight = this.isMending ? MENDING * this.mustWeight : this.mustWeight;
    return (
      value.worth -
      currentValue.worth -
      mustWeight * (value.mustOut - currentValue.mustOut) -
      this.parameters.endShare * this.mean * (value.endsS - currentValue.endsS)
    );
  }

  /** Goes on with `building` a day; once that is done, the search goes on from it where it is better than what it began with. */
  private build(building: Building, share: number): void {
    const isDone = building.turn(share);
    if (isDone) this.building = null;
    if (isDone && this.gain() > 0) {
      this.isMending = true;
      this.counts.note("built", this.accept() ? "best" : "accepted");
    } else {
      this.day.board.copy(this.current);
      this.counts.note("built", "turned away");
    }
  }

  /** What became of the turns so far, by the way their ruin began. */
  statistics(): SearchStatistics {
    return this.counts.value();
  }

  /** Lets starts go on what was ruined, now and then; and holds one back, now and then. */
  private wait(): void {
    const { random: stream, linger, current, parameters } = this;
    const { evaVersion } = this.day.board;
    for (let e = 0; e < evaVersion.length; e += 1)
      if (evaVersion[e] !== current.evaVersion[e] && stream.next() < parameters.released) linger.release(e);
    if (stream.next() < parameters.heldBack) linger.holdBack();
  }

  /** Goes on from the day as it stands; true where none was better so far. */
  private accept(): boolean {
    const { day, current, currentValue } = this;
    current.copy(day.board);
    readValue(day.board, currentValue);
    this.onAccept?.(current, currentValue);
    if (currentValue.mustOut <= this.bestValue.mustOut) this.isMending = false;
    if (!better(currentValue, this.bestValue)) return false;
    this.best.copy(current);
    Object.assign(this.bestValue, currentValue);
    return true;
  }
}
