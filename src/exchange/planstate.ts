import { fingerprint, type Plan, shortFingerprint, stillToGive } from "../plan/index.ts";
import { counted, utcDate } from "../words/index.ts";

/**
 * Of which state of a plan a file is: its revision, its fingerprint as it is read out, how many of its tasks are placed,
 * how many values it rests on that nobody has given, and when it was written
 * (milliseconds since 1970) where that is known. The same words as on paper.
 */
export function planState(plan: Plan, madeMs?: number): string {
  const open = stillToGive(plan).length;
  return [
    plan.revision.name ?? "no revision",
    shortFingerprint(plan),
    placedWords(plan),
    ...(open === 0 ? [] : [`${counted(open, "value")} not given`]),
    ...(madeMs === undefined ? [] : [`written ${writtenUtc(madeMs)} UTC`]),
  ].join(" · ");
}

/** How many of a plan's tasks are on its day. */
export function placedWords(plan: Plan): string {
  return `${placedCount(plan)} placed`;
}

/** The same where there is little room. */
export function placedCount({ tasks, schedule }: Plan): string {
  const placed = tasks.filter(({ id }) => schedule.placements.some(({ task }) => task === id));
  return `${placed.length} of ${counted(tasks.length, "task")}`;
}

/** The same state for programs: the fingerprint whole. */
export function planStateRecord(plan: Plan, madeMs?: number): object {
  return {
    title: plan.title,
    ...(plan.revision.name === undefined ? {} : { revision: plan.revision.name }),
    fingerprint: fingerprint(plan),
    state: planState(plan, madeMs),
  };
}

/** The minute in which a file is written. */
function writtenUtc(madeMs: number): string {
  return utcDate(madeMs - (madeMs % 60_000), 0);
}
