import { parseISO } from "date-fns";
import { type About, type Plan, type Signoff, signoffState } from "../plan/index.ts";
import { numberedTask } from "./names.ts";
import { utcDate } from "./utc.ts";

/** What is said of a plan, in words. */

/** When something was said, as the clock of the machine had it, to the minute: `5 Apr 2031 14:05 UTC`. */
export function remarkedAt(atUtc: string): string {
  const atMs = parseISO(atUtc).getTime();
  return `${utcDate(atMs - (atMs % 60_000), 0)} UTC`;
}

/** What is spoken of: `task 12 Core tube`, `rule return mass`, `page glance`; one that is gone by its id. */
export function aboutWords(plan: Pick<Plan, "tasks">, { kind, id }: About): string {
  if (kind !== "task") return `${kind} ${id.replace(/([A-Z])/g, " $1").toLowerCase()}`;
  return plan.tasks.some((one) => one.id === id)
    ? `task ${numberedTask(plan, id)}`
    : `task ${id}, which is gone`;
}

/** Whether a sign-off still holds, and whose it is. No more is known of that than the name that was typed. */
export function signoffWords(plan: Plan, signoff: Signoff): string {
  const who = `signed by ${signoff.by}, ${remarkedAt(signoff.atUtc)}`;
  switch (signoffState(plan, signoff)) {
    case "holds":
      return `S${who.slice(1)}.`;
    case "changed":
      return signoff.about.kind === "page"
        ? `The plan has changed since this was ${who}.`
        : `Changed since it was ${who}.`;
    case "gone":
      return `Gone since it was ${who}.`;
  }
}
