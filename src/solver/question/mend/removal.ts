import type { Random } from "../../../kernel/index.ts";
import { withPins } from "../../problem/pinned.ts";
import type { PlacedActivity } from "../../network/verify.ts";
import { Trial } from "../trial/trial.ts";
import { scheduleFrom } from "../trial/placed.ts";
import type { Aim } from "./aim.ts";

/** Schedules looked at between two breaths. */
const BREATH = 16;

export interface Removal {
  readonly kept: PlacedActivity[];
  readonly removed: number[];
}

/**
 * Removes placements until the rest is sound, each time the one without which least is broken; worthy ones last. With `mustLast`
 * must-do ones only where no optional one is left, and those to be kept only where no other is.
 */
export function* removeUntilSound(
  aim: Aim,
  placings: readonly PlacedActivity[],
  stream: Random,
  noise: number,
  mustLast: boolean,
): Generator<void, Removal> {
  const { verifier, keep } = aim;
  const { worth, must } = verifier.problem;
  const dearest = worth.reduce((most, one) => Math.max(most, one), 1);
  // Those to be kept go last, and before them the must-do ones.
  const rankOf = (activity: number): number => {
    if (keep.has(activity)) return 2;
    return mustLast && must[activity] === 1 ? 1 : 0;
  };
  const price = (activity: number): number =>
    worth[activity]! / dearest / 2 + (must[activity] === 1 ? 0.45 : 0);
  let kept = [...placings];
  const removed: number[] = [];
  for (let faults = verifier.faults(kept).length; faults > 0;) {
    let best = { rank: Infinity, cost: Infinity, at: 0, faults: 0 };
    for (const [at, { activity }] of kept.entries()) {
      if (at % BREATH === BREATH - 1) yield;
      const left = verifier.faults(kept.filter((_, k) => k !== at)).length;
      const cost = left + price(activity) + noise * stream.next();
      const rank = rankOf(activity);
      if (rank < best.rank || (rank === best.rank && cost < best.cost))
        best = { rank, cost, at, faults: left };
    }
    removed.push(kept[best.at]!.activity);
    kept = kept.filter((_, k) => k !== best.at);
    faults = best.faults;
    yield;
  }
  return { kept, removed };
}

/**
 * The kept placements held (at their starts, or from them on so that they may slide later), the removed ones put back where they fit,
 * first what must least be lost; null when that is not sound.
 */
export function putBack(
  aim: Aim,
  kept: readonly PlacedActivity[],
  removed: readonly number[],
  stream: Random,
  how: "at" | "from",
): PlacedActivity[] | null {
  const trial = Trial.of(withPins(aim.problem, kept, how), scheduleFrom(aim.problem, kept), { stream });
  if (!trial) return null;
  for (const a of [...removed].sort(aim.byRank)) trial.place(a);
  trial.dropUnmet();
  return trial.soundBy(aim.verifier);
}
