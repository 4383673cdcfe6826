import type { WishedDay } from "../../answers/index.ts";

/**
 * The days that no other beats in both, by their chance: a search for more may have found less, and a line in the order of the searches
 * would run back and forth.
 */
export function edgeOf<Day extends Pick<WishedDay, "outcome">>(days: readonly Day[]): readonly Day[] {
  const beats = (one: Day, other: Day): boolean =>
    one.outcome.must.share >= other.outcome.must.share &&
    one.outcome.meanWorth >= other.outcome.meanWorth &&
    (one.outcome.must.share > other.outcome.must.share || one.outcome.meanWorth > other.outcome.meanWorth);
  return days
    .filter((day) => !days.some((other) => beats(other, day)))
    .toSorted((a, b) => a.outcome.must.share - b.outcome.must.share);
}
