/** Lengths of time and points of MET as a planner says them, in whole seconds. */

/** Whole minutes in seconds. */
export function minutes(count: number): number {
  return count * 60;
}

/** Hours and minutes in seconds: `at(13, 45)` is 13:45 MET. */
export function at(hours: number, mins: number): number {
  return hours * 3600 + mins * 60;
}
