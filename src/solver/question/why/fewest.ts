import type { TriedRelaxation } from "../../../answers/index.ts";
import { editBetween, type Plan, type Schedule } from "../../../plan/index.ts";
import { tollIn } from "../../problem/groups.ts";
import type { Relaxation } from "./relaxation.ts";
import { type Effort, solve } from "./solve.ts";

/** The schedule that `relaxation` with `steps` makes possible; null when none was found. The same solve for every step. */
export function* tryRelaxation(
  plan: Plan,
  schedule: Schedule,
  extra: readonly string[],
  relaxation: Relaxation,
  steps: number,
  effort: Effort,
): Generator<void, Schedule | null> {
  const kept = { placements: schedule.placements.filter((one) => !relaxation.drops.includes(one.task)) };
  return yield* solve(relaxation.change(plan, steps), kept, extra, effort);
}

/**
 * The fewest steps of `relaxation` with which the wanted tasks go on, found by halving between what is not accepted and what is; null
 * when none of the steps tried is. One step fewer is not accepted by the same solve.
 */
export function* fewestSteps(
  plan: Plan,
  schedule: Schedule,
  extra: readonly string[],
  relaxation: Relaxation,
  effort: Effort,
): Generator<void, TriedRelaxation | null> {
  let high = relaxation.most;
  let made = yield* tryRelaxation(plan, schedule, extra, relaxation, high, effort);
  while (!made && relaxation.uneven && high > 4) {
    high = Math.floor(high / 2);
    made = yield* tryRelaxation(plan, schedule, extra, relaxation, high, effort);
  }
  if (!made) return null;
  let low = 0;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    const there: Schedule | null = yield* tryRelaxation(plan, schedule, extra, relaxation, middle, effort);
    if (there) {
      high = middle;
      made = there;
    } else low = middle;
  }
  const sentence = relaxation.say(high);
  return {
    kind: relaxation.kind,
    subject: relaxation.subject,
    steps: high,
    sentence,
    owner: relaxation.owner,
    edit: editBetween(sentence, plan, relaxation.change(plan, high)),
    schedule: made,
    dropped: relaxation.drops,
    moves: [],
    cost: { ...tollIn(plan, schedule, relaxation.drops), size: relaxation.size(high) },
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
