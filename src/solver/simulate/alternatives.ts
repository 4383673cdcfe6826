import type { ActingRule, Comparisons, CrewRules, Outcome } from "../../answers/index.ts";
import type { Shape } from "../../kernel/index.ts";
import { type Mishap, mishapsOf, type Plan } from "../../plan/index.ts";
import { Count } from "./count.ts";
import { Days } from "./days.ts";
import { Player } from "./player.ts";
import type { Script } from "./script.ts";
import { outcomeOf } from "./seen.ts";
import { changed } from "../problem/changed.ts";

/** Settings of the caution that are compared; the crew's own is the run itself. */
const CAUTIONS = [0, 0.25, 0.5, 0.75, 1];

/**
 * What the day would come to with something else in how it is played: same schedule, all days of the run drawn from the same
 * deviates, so that what is compared differs by nothing but that.
 */
interface Alternative {
  readonly player: Player;
  readonly count: Count;
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
  private readonly days: number;

  constructor(script: Script, crew: CrewRules, days: Days, shape: Shape, seed: number) {
    const { problem } = script;
    const { without, byCaution } = this;
    const of = (rules: CrewRules, put: (outcome: Outcome) => void, drawn = days): Alternative => {
      const player = new Player(script, rules);
      return { player, count: new Count(player, drawn), put, begun: false };
    };
    const { plan } = problem;
    this.days = days.count;
    const apart = { ...plan, odds: { ...plan.odds, lateness: { ...plan.odds.lateness, day: 0, outing: 0 } } };
    this.waiting = [
      ...RULES.filter((rule) => crew[rule]).map((rule) =>
        of({ ...crew, [rule]: false }, (outcome) => without.push({ rule, outcome })),
      ),
      ...(crew.leavesOut ? CAUTIONS.filter((caution) => caution !== crew.caution) : []).map((caution) =>
        of({ ...crew, caution }, (outcome) => byCaution.push({ caution, outcome })),
      ),
      of(
        crew,
        (outcome) => (this.independent = outcome),
        new Days(changed(problem, { plan: apart }), shape, days.count, seed),
      ),
      ...(plan.tasks.some((task) => mishapsOf(plan, task).length > 0)
        ? [
            of(
              crew,
              (outcome) => (this.unhindered = outcome),
              new Days(changed(problem, { plan: withoutMishaps(plan) }), shape, days.count, seed),
            ),
          ]
        : []),
    ];
  }

  /** What was compared so far, in order of caution, the crew's own among them with what the run itself comes to. */
  comparisons(crew: CrewRules, own: Outcome): Comparisons {
    const { without, independent, unhindered } = this;
    const byCaution = crew.leavesOut ? [...this.byCaution, { caution: crew.caution, outcome: own }] : [];
    return { without, byCaution: byCaution.sort((a, b) => a.caution - b.caution), independent, unhindered };
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
    count.until(Math.min(this.days, count.days + days));
    if (count.days < this.days) return true;
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
