import type { Problem } from "../../problem/problem.ts";
import { scheduleFrom } from "../trial/placed.ts";
import { type Dropped, lossOf } from "./dropping.ts";
import { GAIN } from "./changing.ts";
import type { Played } from "./played.ts";
import type { Remainder } from "./remainder.ts";

/**
 * For each lateness what is left out: the set that loses least as planned, or what is left out when later, where a crew that does that comes to
 * more on the simulated days. What is worth little may be what must-do work stands on, or what gives it time.
 */
export function* asWhenLater(
  base: Problem,
  remainder: Remainder,
  dropped: readonly (Dropped | null)[],
  lengthsS: readonly number[],
  lost: readonly ReadonlySet<number>[],
  played: Played,
): Generator<void, (Dropped | null)[]> {
  const mean = base.worth.reduce((sum, one) => sum + one, 0) / Math.max(1, base.activities);
  const chosen = [...dropped];
  for (let n = dropped.length - 2; n >= 0; n -= 1) {
    const own = dropped[n];
    const later = chosen[n + 1];
    if (!own || !later || later.mustLost > own.mustLost || later.drop.join() === own.drop.join()) continue;
    yield;
    const lengthS = lengthsS[n]!;
    remainder.take(lengthS, own.tolerant, lost[n]);
    const there = remainder.again(later);
    if (!there) continue;
    const value = ({ placings }: Dropped): number =>
      played.value(remainder, lengthS, scheduleFrom(remainder.problem, placings));
    if (value(there) <= value(own) + GAIN * mean) continue;
    chosen[n] = { ...there, ...lossOf(base, remainder, there.drop), least: false };
  }
  return chosen;
}
