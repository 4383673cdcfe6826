import { z } from "zod";
import { invariant } from "../kernel/index.ts";
import { applyPatch, invertPatch, type Patch, patchBetween, patchSchema } from "./patch/index.ts";
import type { Plan } from "./plan.ts";

/** An edit is a value: a name for the planner and the patch that makes it. Undo is inversion. */
export interface Edit {
  /** What was done, in the planner's words: "Move Quick sample". */
  readonly name: string;
  readonly patch: Patch;
}

/** An edit as it lies in a store. */
export const editSchema = z.strictObject({ name: z.string(), patch: patchSchema });

/** The edit that turns `before` into `after`. */
export function editBetween(name: string, before: Plan, after: Plan): Edit {
  return { name, patch: patchBetween(before, after) };
}

/** The plan with the edit made on it. Throws InvariantError when it was made on another plan; see `applyPatch` for edits from outside. */
export function applyEdit(plan: Plan, edit: Edit): Plan {
  const made = applyPatch(plan, edit.patch);
  invariant(
    made.ok,
    `the edit "${edit.name}" does not fit the plan: ${made.ok ? "" : `${made.error.reason} at ${made.error.path.join(" ")}`}`,
  );
  return made.value;
}

/** The edit that takes this one back; it keeps the name. */
export function invertEdit({ name, patch }: Edit): Edit {
  return { name, patch: invertPatch(patch) };
}

/** True when the edit changes nothing. */
export function isEmptyEdit(edit: Edit): boolean {
  return edit.patch.length === 0;
}
