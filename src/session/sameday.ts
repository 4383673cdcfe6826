import { isEqual } from "../kernel/index.ts";
import { type Plan, sameSchedule } from "../plan/index.ts";

/** Words and variants: an answer about a day does not depend on them. */
const APART: readonly string[] = ["title", "notes", "variants", "schedule"];

/** True when both plans are the same day, so that what was found out about one holds for the other. */
export function sameDay(a: Plan, b: Plan): boolean {
  return sameSchedule(a.schedule, b.schedule) && sameFrame(a, b);
}

/** The same but for the schedule. */
export function sameFrame(a: Plan, b: Plan): boolean {
  return a === b || isEqual(frameOf(a), frameOf(b));
}

function frameOf(plan: Plan): Readonly<Record<string, unknown>> {
  return Object.fromEntries(Object.entries(plan).filter(([key]) => !APART.includes(key)));
}
