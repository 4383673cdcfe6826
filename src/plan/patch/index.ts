import { done, failed, type Outcome } from "../../kernel/index.ts";
import type { Plan } from "../plan.ts";
import { applied } from "./apply.ts";
import { between } from "./between.ts";
import { composed } from "./compose.ts";
import { fitted } from "./fit.ts";
import type { Change, Misfit, Patch } from "./patch.ts";
import { treeOf, Unfit } from "./tree.ts";

export type { Change, Misfit, Patch } from "./patch.ts";
export { invertPatch } from "./patch.ts";
export { patchSchema } from "./schema.ts";
export type { Clash, Merged } from "./threeway.ts";
export type { Renumbered } from "./ownids.ts";

/** The patch that turns `before` into `after`. */
export function patchBetween(before: Plan, after: Plan): Patch {
  return between(before, after);
}

/** The plan with a patch made on it as a whole, or why it does not fit; then nothing is made of it. */
export function applyPatch(plan: Plan, patch: Patch): Outcome<Plan, Misfit> {
  return outcome(() => applied(plan, treeOf(patch)) as Plan);
}

/** One patch for `first` and then `second`, or why the second does not follow the first. */
export function composePatches(first: Patch, second: Patch): Outcome<Patch, Misfit> {
  return outcome(() => composed(first, second));
}

/**
 * A patch that was made on another plan, as far as it still means on this one what it did: `patch` fits this plan, `clashes` are
 * the changes left out since something else stands there by now. What is there already is no clash, and order never is.
 */
export function fitPatch(
  plan: Plan,
  patch: Patch,
): Outcome<{ readonly patch: Patch; readonly clashes: readonly Change[] }, Misfit> {
  return outcome(() => {
    const clashes: Change[] = [];
    const next = fitted(plan, treeOf(patch), clashes);
    return { patch: between(plan, next), clashes };
  });
}

function outcome<Value>(make: () => Value): Outcome<Value, Misfit> {
  try {
    return done(make());
  } catch (error) {
    if (error instanceof Unfit) return failed(error.misfit);
    throw error;
  }
}
