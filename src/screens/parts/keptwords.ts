import type { QuarantinedPlan } from "../../session/index.ts";

/** What a kept plan is called. */
export function keptWords({ title, fault }: Pick<QuarantinedPlan, "title" | "fault">): string {
  if (title !== null && title.trim() !== "") return title;
  return fault === null ? "Plan without a title" : "Record without a title";
}
