import type { ActingRule, Comparisons, CrewRules, Outcome } from "../../answers/index.ts";
import type { Shape } from "../../kernel/index.ts";
import { type Mishap, mishapsOf, type Plan } from "../../plan/index.ts";
import { Count, outcomeOf } from "./count.ts";
import { Days } from "./days.ts";
import { Player } from "./player.ts";
import type { Script } from "./script.ts";

/** Days that an alternative is played on, at most. */
const MOST_DAYS = 1000;
/** Settings of the caution that are tried. */
const CAUTIONS = [0, 0.25, 0.5, 0.75, 1];

/** What the day would come to with something else in how it is played: same schedule, days drawn from the same deviates. */
interface Alternative {
  readonly player: Player;
  readonly count: Count;
  readonly days: number;
  readonly put: (outcome: Outcome) => void;
  begun: boolean;
}

/** Rules of a crew that acts, each played without. */
const RULES: readonly ActingRule[] = ["goesAhead", "breaksOff", "leavesOut", "restsByRule"];

/** Plays the alternatives of one run, a day at a time. */
export class Alternatives {
  private readonly without: { readonly rule: ActingRule; readonly outcome: Outcome }[] = [];
  private readonly byCaution: { readonly caution: number; readonly outcome: Outcome }[] = [];
  private independent: Outcome | null = null;
  private unhindered: Outcome | null = null;
  private readonly waiting: Alternative[];

  constructor(script: Script, crew: CrewRules, days: Days, shape: Shape, seed: number) {
    const { problem } = script;
    const { without, byCaution } = this;
    const of = (rules: CrewRules, put: (outcome: Outcome) => void, drawn = days): Alternative => {
      const player = new Player(script, rules);
      const most = Math.min(MOST_DAYS, drawn.count);
      return { player, count: new Count(player, drawn), days: most, put, begun: false };
    };
    const { plan } = problem;
    const most = Math.min(days.count, MOST_DAYS);
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
        new Days({ ...problem, plan: apart }, shape, most, seed),
      ),
      ...(plan.tasks.some((task) => mishapsOf(plan, task).length > 0)
        ? [
            of(
              crew,
              (outcome) => (this.unhindered = outcome),
              new Days({ ...problem, plan: withoutMishaps(plan) }, shape, most, seed),
            ),
          ]
        : []),
    ];
  }

  get comparisons(): Comparisons {
    const { without, byCaution, independent, unhindered } = this;
    return { without, byCaution, independent, unhindered };
  }

  /** Some more days of the alternative in hand; false when all are played. */
  advance(days: number): boolean {
    const one = this.waiting[0];
    if (!one) return false;
    const { player, count } = one;
    if (!one.begun) {
      one.begun = true;
      player.take();
      count.begin();
    }
    count.until(Math.min(one.days, count.days + days));
    if (count.days < one.days) return true;
    one.put(outcomeOf(count));
    this.waiting.shift();
    return true;
  }
}

function withoutMishaps(plan: Plan): Plan {
  const never = <T extends { readonly mishap?: Mishap | undefined }>(one: T): T =>
    one.mishap ? { ...one, mishap: { ...one.mishap, chance: 0 } } : one;
  return { ...plan, tasks: plan.tasks.map(never), equipment: plan.equipment.map(never) };
}
