import { grouped, rounded } from "../../words/index.ts";

/**
 * What a proved upper bound says of a worth: that it is the best, or by how much at most it could be better, in percent
 * rounded up to one place; nothing when no bound is known.
 */
export function boundWords(worth: number, bound: number | null): string | null {
  if (bound === null) return null;
  if (bound <= worth) return "proved best";
  if (worth <= 0) return `at most ${grouped(Math.ceil(bound - worth))} more is possible`;
  // A tenth is only added where there is one: 20 out of 1000 is 2 %, not 2.1 % by a rounding of the machine.
  const percents = Math.round(((bound - worth) / worth) * 1e9) / 1e7;
  return `at most ${rounded(percents, 1, "up")} % more is possible`;
}
