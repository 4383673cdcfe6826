import type { CrewRules } from "../../answers/index.ts";
import { type Board, NO_FLOOR } from "../network/board.ts";
import { Day } from "../network/day.ts";
import { Count } from "../simulate/count.ts";
import type { Seen } from "../simulate/seen.ts";
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

/** How careful a crew may be in what it leaves out. */
export const CAUTIONS: readonly number[] = [0, 0.25, 0.5, 0.75];

/** Schedules kept in mind, so that none is played twice. */
const MOST_KNOWN = 5000;

/** Standard errors by which a chance that is as wished may seem to fall short on few days. */
const ERRORS = 1.5;

/** The wish less what so few days may err by: a price is paid for what is missing of a chance, and not for bad luck with it. */
function within(wish: Wish, days: number): Wish {
  const least = (share: number): number => share - ERRORS * Math.sqrt((share * (1 - share)) / days);
  return { ...wish, home: least(wish.home), must: least(wish.must) };
}

/** What a schedule came to on the common days with a crew of some caution, and on the first of them, which others are raced against. */
export interface Sampled extends Seen {
  readonly caution: number;
  /** By heat. */
  readonly heats: readonly Seen[];
}

/**
 * Tries schedules on common simulated days (common random numbers; sample average approximation: Kleywegt, Shapiro & Homem-de-Mello
 * 2002, SIAM J Optim 12:479). A board of a stretched problem is laid on the true one first: only what breaks no rule at likely
 * durations counts.
 */
export class DayTrial {
  /** The true day with the schedule tried last. */
  readonly day: Day;
  readonly script: Script;
  /** Schedules played. */
  tried = 0;
  private readonly days: Days;
  /** Days played so far, and seconds of the clock that they took. */
  playedDays = 0;
  playedS = 0;
  /** What schedules that were played to the end came to. */
  private readonly known = new Map<string, Sampled>();
  private readonly clock: () => number;
  private readonly crew: CrewRules;
  private readonly player: Player;
  private readonly count: Count;

  constructor(stage: Stage, crew: CrewRules, days: Days, clock: () => number) {
    this.crew = crew;
    this.clock = clock;
    this.day = new Day(stage.problem);
    this.script = new Script(stage);
    this.days = days;
    this.player = new Player(this.script, crew);
    this.count = new Count(this.player, days);
  }

  /** True where a crew's caution makes a difference. */
  get leavesOut(): boolean {
    return this.crew.leavesOut;
  }

  /**
   * Lays the order of `board` on the true day; false when a rule does not hold there or a must-do task is out. What is held back on
   * `board` is let go where the day holds without, but for what is `heldOnPurpose`.
   */
  lay(board: Board, heldOnPurpose = false): boolean {
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
    const held = order.filter((a) => board.floorS[a] !== NO_FLOOR);
    const hold = (on: boolean): void => {
      for (const a of held) day.board.floorS[a] = on ? board.floorS[a]! : NO_FLOOR;
    };
    hold(heldOnPurpose);
    if (day.settle()) return true;
    if (held.length === 0) return false;
    hold(!heldOnPurpose);
    return day.settle();
  }

  /**
   * Plays what was laid with a crew of `caution`; null when on the first days it falls behind `against` by more than about `tolerance`,
   * measured by `wish` on the same days.
   */
  play(wish: Wish, against: Sampled | null, tolerance: number, caution: number): Sampled | null {
    this.script.takeBoard(this.day.board);
    this.tried += 1;
    return this.playAs(wish, against, tolerance, caution);
  }

  /** Plays what was played last with the other cautions, and gives the best of all; a crew that leaves nothing out has but one. */
  varied(wish: Wish, sampled: Sampled): Sampled {
    if (!this.crew.leavesOut) return sampled;
    return CAUTIONS.reduce((best, caution) => {
      if (caution === sampled.caution) return best;
      const other = this.playAs(wish, best, 0, caution);
      return other && valueOf(wish, other) > valueOf(wish, best) ? other : best;
    }, sampled);
  }

  private playAs(wish: Wish, against: Sampled | null, tolerance: number, caution: number): Sampled | null {
    const { player, days, count, known } = this;
    const key = this.keyOf(caution);
    const before = known.get(key);
    if (before) return before;
    player.take({ ...this.crew, caution });
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
    if (!behind) count.until(days.count);
    this.playedDays += count.days;
    this.playedS += this.clock() - fromS;
    if (behind) return null;
    const sampled = { ...count.seen, heats, caution };
    if (known.size >= MOST_KNOWN) known.clear();
    known.set(key, sampled);
    return sampled;
  }

  /** What is played: who does what when as planned, and with what caution. */
  private keyOf(caution: number): string {
    const { order, planS, laneOf, problem } = this.script;
    let key = `${caution}`;
    for (const a of order) {
      key += `;${a},${planS[a]}`;
      for (let s = problem.slotStart[a]!; s < problem.slotStart[a + 1]!; s += 1) key += `,${laneOf[s]}`;
    }
    return key;
  }
}
