import type { TriedRelaxation } from "../../../answers/index.ts";
import { editBetween, type Plan, type Schedule } from "../../../plan/index.ts";
import { tollIn } from "../../problem/groups.ts";
import type { Offer } from "./offer.ts";
import { type Effort, solve } from "./solve.ts";

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
): Generator<void, TriedRelaxation | null> {
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
    cost: { ...tollIn(plan, schedule, offer.drops), size: offer.size(high) },
  };
}

/** Cheaper first. */
export function compareCosts(a: TriedRelaxation, b: TriedRelaxation): number {
  return (
    a.cost.mustLost - b.cost.mustLost ||
    a.cost.worthLost - b.cost.worthLost ||
    a.cost.size - b.cost.size ||
    (a.sentence < b.sentence ? -1 : 1)
  );
}
