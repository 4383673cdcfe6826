import type { ActingRule, Comparisons, CrewRules, Outcome } from "../../answers/index.ts";
import type { Shape } from "../../kernel/index.ts";
import { chanceOf } from "./chance.ts";
import { Days, type Draws } from "./days.ts";
import { Player } from "./player.ts";
import type { Script } from "./script.ts";
import { allHome, keepsMusts, worthOf } from "./tally.ts";

/** Days that an alternative is played on, at most. */
const MOST_DAYS = 1000;
/** Settings of the caution that are tried. */
const CAUTIONS = [0, 0.25, 0.5, 0.75, 1];

/** What the day would come to with something else in how it is played: same schedule, days drawn from the same deviates. */
class Alternative {
  home = 0;
  must = 0;
  worth = 0;
  day = 0;
  readonly days: Days;
  readonly player: Player;
  readonly put: (outcome: Outcome) => void;

  constructor(player: Player, days: Days, put: (outcome: Outcome) => void) {
    this.player = player;
    this.days = days;
    this.put = put;
  }
}

/** Rules of a crew that acts, each played without. */
const RULES: readonly ActingRule[] = ["goesAhead", "breaksOff", "leavesOut", "restsByRule"];

/** Plays the alternatives of one run, a day at a time. */
export class Alternatives {
  private readonly without: { readonly rule: ActingRule; readonly outcome: Outcome }[] = [];
  private readonly byCaution: { readonly caution: number; readonly outcome: Outcome }[] = [];
  private independent: Outcome | null = null;
  private readonly script: Script;
  private readonly draws: Draws;
  private readonly waiting: Alternative[];
  private readonly mustOnBench: boolean;

  constructor(script: Script, crew: CrewRules, days: Days, draws: Draws, shape: Shape, seed: number) {
    const { problem, placed } = script;
    this.script = script;
    this.draws = draws;
    this.mustOnBench = problem.must.some((must, a) => must === 1 && placed[a] === 0);
    const { without, byCaution } = this;
    const of = (rules: CrewRules, put: (outcome: Outcome) => void, drawn = days): Alternative => {
      const player = new Player(script, rules);
      return new Alternative(player, drawn, put);
    };
    const { plan } = problem;
    const apart = { ...plan, odds: { ...plan.odds, lateness: { ...plan.odds.lateness, day: 0, outing: 0 } } };
    this.waiting = [
      ...RULES.filter((rule) => crew[rule]).map((rule) =>
        of({ ...crew, [rule]: false }, (outcome) => without.push({ rule, outcome })),
      ),
      ...(crew.leavesOut ? CAUTIONS : []).map((caution) =>
        of({ ...crew, caution }, (outcome) => byCaution.push({ caution, outcome })),
      ),
      of(
        crew,
        (outcome) => (this.independent = outcome),
        new Days({ ...problem, plan: apart }, shape, Math.min(days.count, MOST_DAYS), seed),
      ),
    ];
  }

  get comparisons(): Comparisons {
    const { without, byCaution, independent } = this;
    return { without, byCaution, independent };
  }

  /** Some more days of the alternative in hand; false when all are played. */
  advance(days: number): boolean {
    const one = this.waiting[0];
    if (!one) return false;
    const { script, draws } = this;
    const most = Math.min(MOST_DAYS, one.days.count);
    if (one.day === 0) one.player.take();
    for (let n = 0; n < days && one.day < most; n += 1, one.day += 1) {
      one.days.deal(one.day, script.order, script.laneOf, draws);
      one.player.play(draws);
      if (allHome(one.player)) one.home += 1;
      if (!this.mustOnBench && keepsMusts(one.player)) one.must += 1;
      one.worth += worthOf(one.player);
    }
    if (one.day < most) return true;
    one.put({
      home: chanceOf(one.home, most),
      must: chanceOf(one.must, most),
      meanWorth: most > 0 ? one.worth / most : 0,
    });
    this.waiting.shift();
    return true;
  }
}
