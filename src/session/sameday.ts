import type { BranchKey, Plan } from "../plan/index.ts";
import { sameSchedule } from "./placing.ts";

/** Words and variants: an answer about a day does not depend on them. */
const APART: readonly BranchKey[] = ["title", "notes", "variants", "schedule"];

/** True when both plans are the same day, so that what was found out about one holds for the other. */
export function sameDay(a: Plan, b: Plan): boolean {
  return sameFrame(a, b) && sameSchedule(a.schedule, b.schedule);
}

/** The same but for the schedule. */
export function sameFrame(a: Plan, b: Plan): boolean {
  if (a === b) return true;
  const keys = [...new Set([...Object.keys(a), ...Object.keys(b)])] as BranchKey[];
  return keys.every((key) => APART.includes(key) || a[key] === b[key]);
}
