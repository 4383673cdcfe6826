import type { CrewRules } from "../../answers/index.ts";
import type { Board } from "../network/board.ts";
import { Day } from "../network/day.ts";
import { type Days, type Draws, drawsFor } from "../simulate/days.ts";
import { Player } from "../simulate/player.ts";
import { Script } from "../simulate/script.ts";
import type { Stage } from "../simulate/stage.ts";
import { allHome, keepsMusts, worthOf } from "../simulate/tally.ts";
import { type Seen, type Wish, valueOf } from "./value.ts";

/** Days after which a candidate that cannot win is dropped. */
const FIRST_DAYS = 24;

/** What a schedule came to on the common days, and on the first of them, which others are raced against. */
export interface Sampled extends Seen {
  readonly first: Seen;
}

/**
 * Tries schedules on common simulated days (common random numbers; sample average approximation: Kleywegt, Shapiro & Homem-de-Mello
 * 2002, SIAM J Optim 12:479). A board of a stretched problem is laid on the true one first: only what breaks no rule at likely
 * durations counts.
 */
export class Trial {
  /** The true day with the schedule tried last. */
  readonly day: Day;
  readonly script: Script;
  /** Schedules played, and those dropped early. */
  tried = 0;
  dropped = 0;
  private readonly days: Days;
  private readonly draws: Draws;
  private readonly player: Player;

  constructor(stage: Stage, crew: CrewRules, days: Days) {
    this.day = new Day(stage.problem);
    this.script = new Script(stage);
    this.player = new Player(this.script, crew);
    this.days = days;
    this.draws = drawsFor(stage.problem);
  }

  /** Lays the order of `board` on the true day; false when a rule does not hold there or a must-do task is out. */
  lay(board: Board): boolean {
    const { day } = this;
    const { problem } = day;
    for (let a = 0; a < problem.activities; a += 1) if (day.board.placed[a] === 1) day.board.unlink(a);
    const order: number[] = [];
    for (let a = 0; a < problem.activities; a += 1) if (board.placed[a] === 1) order.push(a);
    order.sort((a, b) => board.earliest[a]! - board.earliest[b]! || a - b);
    const behind: number[] = [];
    for (const a of order) {
      behind.length = 0;
      for (let s = problem.slotStart[a]!; s < problem.slotStart[a + 1]!; s += 1)
        behind.push(day.board.prev[day.board.tail + board.lane[s]!]!);
      day.board.link(a, behind, board.evaOf[a]!);
    }
    return day.settle();
  }

  /**
   * Plays what was laid; null when on the first days it falls behind `against` by more than `tolerance`, measured by `wish` on the same
   * days.
   */
  play(wish: Wish, against: Sampled | null, tolerance: number): Sampled | null {
    const { script, player, days } = this;
    script.takeBoard(this.day.board);
    player.take();
    this.tried += 1;
    const sum = { worth: 0, home: 0, must: 0 };
    let first: Seen | null = null;
    for (let d = 0; d < days.count; d += 1) {
      days.deal(d, script.order, script.laneOf, this.draws);
      player.play(this.draws);
      if (allHome(player)) sum.home += 1;
      if (keepsMusts(player)) sum.must += 1;
      sum.worth += worthOf(player);
      if (d + 1 !== Math.min(FIRST_DAYS, days.count)) continue;
      first = over(sum, d + 1);
      if (!against || valueOf(wish, first) >= valueOf(wish, against.first) - tolerance) continue;
      this.dropped += 1;
      return null;
    }
    const seen = over(sum, days.count);
    return { ...seen, first: first ?? seen };
  }
}

function over({ worth, home, must }: Seen, days: number): Seen {
  return { worth: worth / days, home: home / days, must: must / days };
}
