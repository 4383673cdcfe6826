import type { Verdict } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { useSession, useView } from "../context.ts";

/**
 * The day that the shown one is held against, with its verdict: while something is in hand the day at the begin, and
 * once it is set down the day before the move, until something else is selected or the plan is another one. Else null.
 */
export function useBefore(): { readonly plan: Plan; readonly verdict: Verdict } | null {
  const inHand = useSession((state) => state.preview !== null);
  const plan = useSession((state) => state.plan);
  const verdict = useSession((state) => state.verdict);
  const selection = useSession((state) => state.selection);
  const before = useView((view) => view.before);
  if (inHand) return { plan, verdict };
  if (before?.now !== plan || !before.tasks.every((task) => selection.includes(task))) return null;
  return before;
}
