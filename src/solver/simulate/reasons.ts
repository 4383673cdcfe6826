import { REASONS } from "./outcome.ts";
import type { Tally } from "./tally.ts";

/** Why a task is missed, in words, in the order of REASONS. */
const WORDS = [
  "missed",
  "what it needs was not done",
  "there is no way to it",
  "its window was over",
  "a greatest lag was over",
  "the way home had to be kept",
  "left out for must-do work ahead",
  "broken off to be home in time",
  "done in vain",
  "a rare event spoilt it",
] as const;

/** The reason on most of the days on which activity `a` was missed, in words; null where it never was. */
export function reasonWords({ missed, done, count }: Tally, a: number): string | null {
  if (done[a]! === count) return null;
  const counts = missed.subarray(a * REASONS.length, (a + 1) * REASONS.length);
  return WORDS[counts.reduce((best, one, k) => (one > counts[best]! ? k : best), 0)]!;
}
