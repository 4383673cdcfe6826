import { type Edit, editBetween, type Plan, type Schedule } from "../../../plan/index.ts";
import type { Offer } from "./offer.ts";
import { type Effort, solve } from "./solve.ts";

/** What giving something up costs, compared in this order. */
export interface Cost {
  readonly mustLost: number;
  readonly worthLost: number;
  /** The change as a share of the number it changes; 1 for a condition taken away; the number of tasks dropped. */
  readonly size: number;
}

/** One thing given up, as a value: the edit of the plan, the schedule that it makes possible, and what it costs. */
export interface Relaxation {
  readonly kind: Offer["kind"] | "rearrange" | "exchange";
  readonly subject: string | null;
  /** Whole steps given up: minutes, percents, tenths of a degree, units; 1 for yes or no. */
  readonly steps: number;
  readonly sentence: string;
  /** Who has to agree; null where the planner decides. */
  readonly owner: string | null;
  /** Changes the plan but for its schedule; empty where the schedule alone changes. */
  readonly edit: Edit;
  /** Sound under the changed plan: the wanted task placed, nothing else lost but what is dropped. */
  readonly schedule: Schedule;
  readonly dropped: readonly string[];
  /** One sentence for each placed task that starts at another time or is done by others, where nothing is given up for it. */
  readonly moves: readonly string[];
  readonly cost: Cost;
}

/** The schedule that `offer` with `steps` makes possible; null when none was found. The same solve for every step. */
export function* tryOffer(
  plan: Plan,
  schedule: Schedule,
  extra: readonly string[],
  offer: Offer,
  steps: number,
  effort: Effort,
): Generator<void, Schedule | null> {
  const kept = { placements: schedule.placements.filter((one) => !offer.drops.includes(one.task)) };
  return yield* solve(offer.change(plan, steps), kept, extra, effort);
}

/**
 * The fewest steps of `offer` with which the wanted tasks go on, found by halving between what is not accepted and what is; null
 * when none of the steps tried is. One step fewer is not accepted by the same solve.
 */
export function* leastOf(
  plan: Plan,
  schedule: Schedule,
  extra: readonly string[],
  offer: Offer,
  effort: Effort,
): Generator<void, Relaxation | null> {
  let high = offer.most;
  let made = yield* tryOffer(plan, schedule, extra, offer, high, effort);
  while (!made && offer.uneven && high > 4) {
    high = Math.floor(high / 2);
    made = yield* tryOffer(plan, schedule, extra, offer, high, effort);
  }
  if (!made) return null;
  let low = 0;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    const there: Schedule | null = yield* tryOffer(plan, schedule, extra, offer, middle, effort);
    if (there) {
      high = middle;
      made = there;
    } else low = middle;
  }
  const lost = plan.tasks.filter((task) => offer.drops.includes(task.id));
  const sentence = offer.say(high);
  return {
    kind: offer.kind,
    subject: offer.subject,
    steps: high,
    sentence,
    owner: offer.owner,
    edit: editBetween(sentence, plan, offer.change(plan, high)),
    schedule: made,
    dropped: offer.drops,
    moves: [],
    cost: {
      mustLost: lost.filter((task) => task.must).length,
      worthLost: lost.reduce((sum, task) => sum + task.worth, 0),
      size: offer.size(high),
    },
  };
}

/** Cheaper first. */
export function compareCosts(a: Relaxation, b: Relaxation): number {
  return (
    a.cost.mustLost - b.cost.mustLost ||
    a.cost.worthLost - b.cost.worthLost ||
    a.cost.size - b.cost.size ||
    (a.sentence < b.sentence ? -1 : 1)
  );
}
