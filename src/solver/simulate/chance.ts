import type { Chance } from "../../answers/index.ts";
import { fixed } from "../../words/index.ts";

/** Two-sided 95 % of the normal distribution. */
const Z = 1.959963984540054;

/** How a share is rounded: down where it is of something good, up where of something bad, so that it is never said better than counted. */
type Rounding = "down" | "up";

/** The chance that `count` of `of` days speak for; with no days anything is possible. */
export function chanceOf(count: number, of: number, rounding: Rounding = "down"): Chance {
  if (of === 0) return worded({ count, of, share: 0, low: 0, high: 1 }, rounding);
  const share = count / of;
  const square = (Z * Z) / of;
  const middle = share + square / 2;
  const half = Z * Math.sqrt((share * (1 - share)) / of + square / (4 * of));
  const low = count === 0 ? 0 : Math.max(0, (middle - half) / (1 + square));
  const high = count === of ? 1 : Math.min(1, (middle + half) / (1 + square));
  return worded({ count, of, share, low, high }, rounding);
}

/**
 * A chance in words, never better than counted: tenths of a percent, rounded to the worse side, with the interval
 * rounded outwards. Where it happened in every day or in none, only what that many days can bear: `over 99.8 %`.
 */
function chanceWords({ count, of, share, low, high }: Omit<Chance, "words">, rounding: Rounding): string {
  if (of === 0) return "unknown";
  if (count === of) return `over ${tenths(low, "down")} %`;
  if (count === 0) return `under ${tenths(high, "up")} %`;
  return `${tenths(rounding === "up" ? Math.min(MOST, share) : share, rounding)} % (${tenths(low, "down")} to ${tenths(Math.min(MOST, high), "up")} %)`;
}

function worded(chance: Omit<Chance, "words">, rounding: Rounding): Chance {
  return { ...chance, words: chanceWords(chance, rounding) };
}

/** What is not certain is never said to be. */
const MOST = 0.999;

function tenths(share: number, rounding: Rounding): string {
  return fixed(100 * share, 1, rounding);
}
