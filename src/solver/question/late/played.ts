import type { Outcome } from "../../../answers/index.ts";
import type { Schedule } from "../../../plan/index.ts";
import { withStartsOf } from "../../problem/known.ts";
import type { Problem } from "../../problem/problem.ts";
import type { Count } from "../../simulate/count.ts";
import { outcomeOf } from "../../simulate/seen.ts";
import { crewOf } from "../../simulate/crew.ts";
import { Days } from "../../simulate/days.ts";
import { countFrom } from "../../simulate/given.ts";
import { type Stage, stageOf } from "../../simulate/stage.ts";
import { valueOf, wishFor } from "../../simulate/value.ts";
import { lasting } from "./lasting.ts";
import type { Remainder } from "./remainder.ts";

/** Days that orders are compared on, and others that what was chosen is counted on. */
const CHOSEN = 60;
export const SHOWN = 300;
const SEED = 1;

/**
 * What a crew comes to that follows an order from the moment on at which a task is left late: the same simulated days for all, acted on as
 * the plan's crew acts.
 */
export class Played {
  readonly stage: Stage;
  private readonly days;
  private readonly crew;
  private readonly wish;
  private readonly base: Problem;
  /** What was counted with the rest of a day that is asked about now, by lateness and schedule. */
  private readonly values = new Map<string, number>();
  private valued: Remainder | null = null;
  private last: {
    readonly remainder: Remainder;
    readonly lengthS: number;
    readonly problem: Problem;
  } | null = null;

  constructor(base: Problem) {
    const { odds } = base.plan;
    this.base = base;
    this.stage = stageOf(base);
    this.days = new Days(base, "pert", CHOSEN + SHOWN, SEED);
    this.crew = crewOf(odds);
    this.wish = wishFor(base, odds.wish.home, odds.wish.must);
  }

  /** Worth on average less what is missing of the chances wanted, on the days that are chosen by. */
  value(remainder: Remainder, lengthS: number, schedule: Schedule): number {
    if (this.valued !== remainder) this.values.clear();
    this.valued = remainder;
    const key = `${lengthS} ${keyOf(schedule)}`;
    const known = this.values.get(key);
    if (known !== undefined) return known;
    const value = valueOf(this.wish, this.count(remainder, lengthS, schedule, 0, CHOSEN).seen);
    this.values.set(key, value);
    return value;
  }

  /** The outcome on the days that nothing is chosen by. */
  outcome(remainder: Remainder, lengthS: number, schedule: Schedule): Outcome {
    return outcomeOf(this.count(remainder, lengthS, schedule, CHOSEN, SHOWN));
  }

  private count(
    remainder: Remainder,
    lengthS: number,
    schedule: Schedule,
    from: number,
    most: number,
  ): Count {
    const { stage, days, crew } = this;
    const known = { problem: withStartsOf(this.late(remainder, lengthS), schedule), past: remainder.past };
    return countFrom(stage, known, schedule, crew, days, from, most).until(most);
  }

  /** The problem with the present task as long; the last one is kept, as one lateness is asked about many times. */
  private late(remainder: Remainder, lengthS: number): Problem {
    const { last } = this;
    if (last?.remainder === remainder && last.lengthS === lengthS) return last.problem;
    const problem = lasting(this.base, remainder.present, lengthS, remainder.past);
    this.last = { remainder, lengthS, problem };
    return problem;
  }
}

/** Who does what when. */
function keyOf({ placements }: Schedule): string {
  return placements.map(({ task, eva, crew, startS }) => `${task} ${eva} ${crew.join()} ${startS}`).join(";");
}
