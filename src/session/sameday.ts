import { type Plan, sameFrame, sameSchedule } from "../plan/index.ts";

/** True when both plans are the same day, so that what was found out about one holds for the other. */
export function sameDay(a: Plan, b: Plan): boolean {
  return sameSchedule(a.schedule, b.schedule) && sameFrame(a, b);
}
