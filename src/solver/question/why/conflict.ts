import type { Schedule } from "../../../plan/index.ts";
import { type Cause, causesOf, keyOf } from "./cause.ts";
import type { RelaxedProblem } from "./relaxedproblem.ts";
import type { Cycle } from "./cycle.ts";
import { quickXplain } from "./quickxplain.ts";
import { ConsistencyCheck, type Scope } from "./consistency.ts";

/** Causes that cannot all hold; none where it is not known what stands against it. */
export interface Conflict {
  readonly causes: readonly Cause[];
  /** proved: no schedule in this order has them all. searched: the search found none. */
  readonly certainty: "proved" | "searched";
  readonly scope: Scope;
  /** True when leaving out any one of them was seen to be enough. */
  readonly minimal: boolean;
}

/**
 * A minimal conflict between `schedule` and the tasks `group` that `wanted` stands for (null: within the schedule), in the order as
 * it stands or as every start stands; null when there is none. `cycle`, where times alone leave one place, narrows the search. An answer that is not known
 * counts as no conflict where a conflict was proved, so that the conflict stays true though perhaps not minimal.
 */
export function* conflictOf(
  relaxed: RelaxedProblem,
  schedule: Schedule,
  wanted: number | null,
  group: readonly number[],
  cycle: Cycle | null,
  scope: Scope = "in this order",
): Generator<void, Conflict | null> {
  const check = new ConsistencyCheck(relaxed, schedule, wanted, scope);
  const all = causesOf(relaxed.problem, schedule, group);
  const whole = yield* check.ask(all);
  if (whole === "fits") return null;
  const certainty = whole === "fails" ? "proved" : "searched";
  if (whole === "open") return { causes: [], certainty, scope, minimal: false };
  let doubtful = false;
  function* conflicts(part: readonly Cause[]): Generator<void, boolean> {
    const answer = yield* check.ask(part);
    if (answer === "open" || (answer === "none" && certainty === "proved")) doubtful = true;
    return answer === "fails" || (answer === "none" && certainty === "searched");
  }
  const inCycle = new Set(cycle?.causes.map(keyOf));
  const narrow = all.filter((cause) => inCycle.has(keyOf(cause)));
  const enough = narrow.length > 0 && (yield* conflicts(narrow));
  doubtful = false;
  const causes = yield* quickXplain(enough ? narrow : all, conflicts);
  return {
    causes,
    certainty,
    scope,
    minimal: !doubtful,
  };
}
