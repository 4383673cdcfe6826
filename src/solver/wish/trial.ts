import type { CrewRules } from "../../answers/index.ts";
import { type Board, NO_FLOOR } from "../network/board.ts";
import { Day } from "../network/day.ts";
import { Count, type Seen } from "../simulate/count.ts";
import type { Days } from "../simulate/days.ts";
import { Player } from "../simulate/player.ts";
import { Script } from "../simulate/script.ts";
import type { Stage } from "../simulate/stage.ts";
import { type Wish, valueOf } from "../simulate/value.ts";

/** Days after which a candidate that falls behind is dropped, and by how many tolerances it then has to be behind: few days tell little. */
const HEATS = [
  { days: 12, tolerances: 2 },
  { days: 24, tolerances: 1 },
  { days: 48, tolerances: 0.6 },
];

/** Standard errors by which a chance that is as wished may seem to fall short on few days. */
const ERRORS = 1.5;

/** The wish less what so few days may err by: a price is paid for what is missing of a chance, and not for bad luck with it. */
function within(wish: Wish, days: number): Wish {
  const least = (share: number): number => share - ERRORS * Math.sqrt((share * (1 - share)) / days);
  return { ...wish, home: least(wish.home), must: least(wish.must) };
}

/** What a schedule came to on the common days, and on the first of them, which others are raced against. */
export interface Sampled extends Seen {
  /** By heat. */
  readonly heats: readonly Seen[];
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
  /** Days played so far, and seconds of the clock that they took. */
  playedDays = 0;
  playedS = 0;
  private readonly clock: () => number;
  private readonly player: Player;
  private readonly count: Count;

  constructor(stage: Stage, crew: CrewRules, days: Days, clock: () => number) {
    this.clock = clock;
    this.day = new Day(stage.problem);
    this.script = new Script(stage);
    this.days = days;
    this.player = new Player(this.script, crew);
    this.count = new Count(this.player, days);
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
    if (day.settle()) return true;
    // Some days hold only where somebody waits on purpose.
    let waits = false;
    for (const a of order) {
      if (board.floorS[a] === NO_FLOOR) continue;
      day.board.floorS[a] = board.floorS[a]!;
      waits = true;
    }
    return waits && day.settle();
  }

  /**
   * Plays what was laid; null when on the first days it falls behind `against` by more than about `tolerance`, measured by `wish` on the
   * same days.
   */
  play(wish: Wish, against: Sampled | null, tolerance: number): Sampled | null {
    const { script, player, days, count } = this;
    script.takeBoard(this.day.board);
    player.take();
    this.tried += 1;
    count.begin();
    const fromS = this.clock();
    const heats: Seen[] = [];
    const behind = HEATS.some(({ days: heatDays, tolerances }, k) => {
      const heat = count.until(Math.min(heatDays, days.count)).seen;
      heats.push(heat);
      const likely = within(wish, heatDays);
      return (
        against !== null &&
        valueOf(likely, heat) < valueOf(likely, against.heats[k]!) - tolerances * tolerance
      );
    });
    if (behind) this.dropped += 1;
    else count.until(days.count);
    this.playedDays += count.days;
    this.playedS += this.clock() - fromS;
    return behind ? null : { ...count.seen, heats };
  }
}
