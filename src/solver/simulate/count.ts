import type { CrewRules } from "../../answers/index.ts";
import type { Schedule } from "../../plan/index.ts";
import { type Dealt, type DaySample, sampleFor } from "./days.ts";
import { Player } from "./player.ts";
import { Script } from "./script.ts";
import { type Seen, seenOf } from "./seen.ts";
import type { Stage } from "./stage.ts";
import { allHome, isMustOnBench, keepsMusts, worthOf } from "./tally.ts";

/** Counts what the schedule that a player has taken up comes to, on day after day of the same days. */
export class Count {
  /** Days counted; and of these with everybody home, with every must-do task done, and their worth in all. */
  days = 0;
  home = 0;
  must = 0;
  worth = 0;
  private readonly player: Player;
  private readonly of: Dealt;
  private readonly draws: DaySample;
  private mustOnBench = false;

  constructor(player: Player, of: Dealt) {
    this.player = player;
    this.of = of;
    this.draws = sampleFor(player.script.problem);
  }

  /** Begins anew with what the player has taken up. */
  begin(): void {
    this.days = this.home = this.must = this.worth = 0;
    this.mustOnBench = isMustOnBench(this.player.script);
  }

  /** Plays on until `days` are counted. */
  until(days: number): this {
    const { player, of, draws } = this;
    const { order, laneOf } = player.script;
    for (; this.days < days; this.days += 1) {
      of.deal(this.days, order, laneOf, draws);
      player.play(draws);
      if (allHome(player)) this.home += 1;
      if (!this.mustOnBench && keepsMusts(player)) this.must += 1;
      this.worth += worthOf(player);
    }
    return this;
  }

  get seen(): Seen {
    return seenOf(this);
  }
}

/** Begins to count what `schedule` comes to with this crew. */
export function countOf(stage: Stage, schedule: Schedule, crew: CrewRules, of: Dealt): Count {
  const script = new Script(stage);
  script.takeSchedule(schedule);
  const player = new Player(script, crew);
  player.take();
  const count = new Count(player, of);
  count.begin();
  return count;
}
