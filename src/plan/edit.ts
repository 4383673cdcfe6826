import { invariant } from "../kernel/index.ts";
import type { Plan } from "./plan.ts";

/**
 * An edit is a value: a name for the planner and the top-level branches it replaces, each with what stood there
 * and what stands there now. Undo is inversion; many small edits of one gesture squash to one.
 */

/** A top-level part of the plan: crew, tasks, rules, schedule and so on. */
export type BranchKey = keyof Plan;

/** One replaced branch. Branches are compared by identity: plans are never changed in place. */
export type BranchChange = {
  [K in BranchKey]: { readonly key: K; readonly before: Plan[K]; readonly after: Plan[K] };
}[BranchKey];

export interface Edit {
  /** What was done, in the planner's words: "Move Quick sample". */
  readonly name: string;
  /** At most one for each branch, in the order of the keys' names; none where before and after are the same. */
  readonly changes: readonly BranchChange[];
}

/** The edit that turns `before` into `after`. */
export function editBetween(name: string, before: Plan, after: Plan): Edit {
  const keys = [...new Set([...Object.keys(before), ...Object.keys(after)])] as BranchKey[];
  return { name, changes: tidy(keys.map((key) => change(key, before[key], after[key]))) };
}

/**
 * The plan with the edit's branches replaced. Throws InvariantError when a branch is not the one that the edit was
 * made on.
 */
export function applyEdit(plan: Plan, edit: Edit): Plan {
  const parts: Partial<Record<BranchKey, unknown>> = {};
  for (const { key, before, after } of edit.changes) {
    invariant(plan[key] === before, `the edit "${edit.name}" was made on another "${key}" than the plan's`);
    parts[key] = after;
  }
  return edit.changes.length === 0 ? plan : ({ ...plan, ...parts } as Plan);
}

/** The edit that takes this one back; it keeps the name. */
export function invertEdit(edit: Edit): Edit {
  return {
    name: edit.name,
    changes: edit.changes.map(({ key, before, after }) => change(key, after, before)),
  };
}

/**
 * One edit for `first` and then `second`, named like the second. Throws InvariantError when the second was not made
 * on what the first left.
 */
export function squashEdits(first: Edit, second: Edit): Edit {
  const byKey = new Map<BranchKey, BranchChange>(first.changes.map((one) => [one.key, one]));
  for (const next of second.changes) {
    const earlier = byKey.get(next.key);
    invariant(
      earlier === undefined || earlier.after === next.before,
      `the edit "${second.name}" does not follow "${first.name}": they differ in "${next.key}"`,
    );
    byKey.set(next.key, change(next.key, earlier === undefined ? next.before : earlier.before, next.after));
  }
  return { name: second.name, changes: tidy([...byKey.values()]) };
}

/** True when the edit changes nothing. */
export function isEmptyEdit(edit: Edit): boolean {
  return edit.changes.length === 0;
}

function change(key: BranchKey, before: unknown, after: unknown): BranchChange {
  return { key, before, after } as BranchChange;
}

function tidy(changes: readonly BranchChange[]): BranchChange[] {
  return changes
    .filter(({ before, after }) => before !== after)
    .sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0));
}
