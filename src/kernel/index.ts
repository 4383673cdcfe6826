export { after, between, duration, instant } from "./time.ts";
export type { Duration, Instant } from "./time.ts";
export { contains, intersect, normalise, overlaps } from "./interval.ts";
export type { Interval } from "./interval.ts";
export { random } from "./random.ts";
export type { Random } from "./random.ts";
export { invariant, InvariantError } from "./invariant.ts";
export { done, failed } from "./outcome.ts";
export type { Outcome } from "./outcome.ts";
