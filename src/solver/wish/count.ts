import type { CrewRules } from "../../answers/index.ts";
import type { Schedule } from "../../plan/index.ts";
import { type Days, drawsFor } from "../simulate/days.ts";
import { Player } from "../simulate/player.ts";
import { Script } from "../simulate/script.ts";
import type { Stage } from "../simulate/stage.ts";
import { allHome, keepsMusts, worthOf } from "../simulate/tally.ts";
import type { Seen } from "./value.ts";

/** What `schedule` comes to on all of `days` with this crew. With a must-do task on the bench no day has them all done. */
export function countDays(stage: Stage, schedule: Schedule, crew: CrewRules, days: Days): Seen {
  const { problem } = stage;
  const script = new Script(stage);
  script.takeSchedule(schedule);
  const player = new Player(script, crew);
  player.take();
  const draws = drawsFor(problem);
  const mustOut = problem.must.some((must, a) => must === 1 && script.placed[a] === 0);
  let home = 0;
  let must = 0;
  let worth = 0;
  for (let d = 0; d < days.count; d += 1) {
    days.deal(d, script.order, script.laneOf, draws);
    player.play(draws);
    if (allHome(player)) home += 1;
    if (!mustOut && keepsMusts(player)) must += 1;
    worth += worthOf(player);
  }
  return { home: home / days.count, must: must / days.count, worth: worth / days.count };
}
