import { type Random, random } from "../kernel/index.ts";
import type { Schedule } from "../plan/index.ts";
import { Board } from "./board.ts";
import { Day } from "./day.ts";
import { lay } from "./placing.ts";
import type { Problem } from "./problem.ts";
import { Recreate } from "./recreate.ts";
import { Ruin } from "./ruin.ts";
import { better, readValue, type Value } from "./score.ts";

/** Temperature at the start and at the end, in mean worths of an activity. */
const HOT = 1;
const COLD = 0.05;
/** Weight of the ends of routes beside worth, in mean worths a second: breaks ties, decides nothing else. */
const END_SHARE = 1e-6;

/**
 * The search: one trajectory of ruin and recreate under annealing (Schrimpf et al. 2000; Ropke & Pisinger 2006; Christiaens &
 * Vanden Berghe 2020). Cooled by the share of the run that is done, which the caller gives.
 */
export class Anneal {
  readonly day: Day;
  readonly best: Board;
  readonly bestValue: Value = { mustOut: Infinity, worth: -1, endsS: 0 };
  readonly recreate: Recreate;
  private readonly ruin: Ruin;
  private readonly random: Random;
  private readonly current: Board;
  private readonly currentValue: Value = { mustOut: Infinity, worth: -1, endsS: 0 };
  private readonly value: Value = { mustOut: 0, worth: 0, endsS: 0 };
  private readonly mean: number;
  private readonly mustWeight: number;

  constructor(problem: Problem, seed: number, from: Schedule | null) {
    this.random = random(seed);
    this.day = new Day(problem);
    this.best = new Board(problem);
    this.current = new Board(problem);
    this.ruin = new Ruin(this.day, this.random);
    this.recreate = new Recreate(this.day, this.random);
    this.recreate.insertion.base = this.current.version;
    const total = problem.worth.reduce((sum, one) => sum + one, 0);
    this.mean = Math.max(1, total / Math.max(1, problem.activities));
    // While searching a must-do task may be left out for a step, but for a high price.
    this.mustWeight = this.mean + problem.worth.reduce((most, one) => Math.max(most, one), 0);
    if (from) lay(this.day, from);
    this.recreate.fill();
    this.accept();
  }

  /** One ruin and recreate; `share` of the run is done, 0 to 1. */
  iterate(share: number): void {
    const { day, random: stream, value, currentValue } = this;
    this.ruin.take();
    // Without what was taken off, crew members may be too far apart or a way longer: such a ruin leads nowhere.
    if (!day.settle()) {
      day.board.copy(this.current);
      return;
    }
    if (day.board.placed[this.ruin.seed] === 0 && stream.next() < 0.5) this.recreate.place(this.ruin.seed, 0);
    this.recreate.fill();
    readValue(day.board, value);
    const gain =
      value.worth -
      currentValue.worth -
      this.mustWeight * (value.mustOut - currentValue.mustOut) -
      END_SHARE * this.mean * (value.endsS - currentValue.endsS);
    const temperature = HOT * this.mean * (COLD / HOT) ** share;
    if (gain > temperature * Math.log(stream.next())) this.accept();
    else day.board.copy(this.current);
  }

  /** Takes up the search from the best again. */
  restart(): void {
    this.day.board.copy(this.best);
    this.accept();
  }

  private accept(): void {
    const { day, current, currentValue } = this;
    current.copy(day.board);
    readValue(day.board, currentValue);
    if (!better(currentValue, this.bestValue)) return;
    this.best.copy(current);
    Object.assign(this.bestValue, currentValue);
  }
}
