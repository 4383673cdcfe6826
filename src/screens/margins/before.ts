import type { Verdict } from "../../answers/index.ts";
import type { Plan } from "../../plan/index.ts";
import { useDesk, useLook } from "../context.ts";

/**
 * The day that the shown one is held against, with its verdict: while something is in hand the day at the begin, and
 * once it is set down the day before the move, until something else is selected or the plan is another one. Else null.
 */
export function useBefore(): { readonly plan: Plan; readonly verdict: Verdict } | null {
  const inHand = useDesk((state) => state.preview !== null);
  const plan = useDesk((state) => state.plan);
  const verdict = useDesk((state) => state.verdict);
  const selection = useDesk((state) => state.selection);
  const before = useLook((look) => look.before);
  if (inHand) return { plan, verdict };
  if (before?.now !== plan || !before.tasks.every((task) => selection.includes(task))) return null;
  return before;
}
