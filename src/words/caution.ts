import { percent } from "./amount.ts";

/** What a day changes of the plan that is chosen for a crew of caution `to` (share) where the plan has `from`. */
export function cautionSentence(from: number, to: number): string {
  if (from === to) return "Nothing of the plan.";
  return `The crew’s caution is ${percent(to, "given")}, not ${percent(from, "given")}.`;
}
