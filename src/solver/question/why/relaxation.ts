import type { RelaxationKind } from "../../../answers/index.ts";
import type { Plan } from "../../../plan/index.ts";

/** One thing that could be given up: a number changed by whole steps, a condition taken away, or tasks dropped. */
export interface Relaxation {
  readonly kind: RelaxationKind;
  /** Id of what is changed. */
  readonly subject: string;
  /** Steps at the most; 1 where there is only yes or no. */
  readonly most: number;
  /** True where more steps can also be worse, so that fewer are tried when most do not help. */
  readonly uneven?: boolean;
  /** Tasks that leave the day. */
  readonly drops: readonly string[];
  /** Not asked for when a relaxation of one of these kinds on the same subject was taken. */
  readonly unless?: readonly RelaxationKind[];
  /** Who has to agree; null where the planner decides. */
  readonly owner: string | null;
  /** The plan with `steps` given up. */
  change(plan: Plan, steps: number): Plan;
  /** Size of `steps` as a share of the number that is changed; 1 for a condition taken away. */
  size(steps: number): number;
  say(steps: number): string;
}

/** `list` with `change` made to the member called `id`. */
export function withOne<T extends { readonly id: string }>(
  list: readonly T[],
  id: string,
  change: (one: T) => T,
): T[] {
  return list.map((one) => (one.id === id ? change(one) : one));
}
