import type { Plan } from "../plan/index.ts";
import { listed } from "./list.ts";
import { numberedTask } from "./names.ts";

/** Why no chance of a day is known: what no simulated day can play as it is placed. */
export function unplayedWords(plan: Pick<Plan, "tasks">, unplayed: readonly string[]): string {
  const names = listed(unplayed.map((task) => numberedTask(plan, task)));
  return `No simulated day can play ${names} as placed, against rules that no delay mends (see the breaches), so no chance is known.`;
}
