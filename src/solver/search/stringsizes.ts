import type { SearchParameters } from "./parameters.ts";

/** How long a string of a ruin may be where `used` routes hold `count` activities (Christiaens & Vanden Berghe 2020, Transp Sci 54:417). */
export function longestOf(count: number, used: number, parameters: SearchParameters): number {
  return Math.min(parameters.longestString, Math.max(1, count / used));
}

/** How many strings of up to `longest` a ruin takes off `used` routes; `drawn` is 0 to 1 at random. */
export function stringsOf(
  longest: number,
  used: number,
  parameters: SearchParameters,
  drawn: number,
): number {
  const most = (4 * parameters.takenOnAverage) / (1 + longest) - 1;
  return Math.min(used, Math.max(1, Math.floor(drawn * most + 1)));
}
