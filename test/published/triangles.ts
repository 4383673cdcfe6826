import type { Spread } from "./spread.ts";

/**
 * Exact distribution function of the sum of two triangular durations. The density of one is a sum of ramps
 * c (x - k)+ at its low, likely and high; two ramps convolve to (x - k - l)+^3 / 3!, integrated (x - k - l)+^4 / 4!.
 */
export function sumOfTwo(a: Spread, b: Spread, x: number): number {
  const ramps = ({ low, likely, high }: Spread): [number, number][] => {
    const up = 2 / ((high - low) * (likely - low));
    const down = 2 / ((high - low) * (high - likely));
    return [
      [low, up],
      [likely, -up - down],
      [high, down],
    ];
  };
  return ramps(a).reduce(
    (sum, [k, c]) => sum + ramps(b).reduce((s, [l, d]) => s + (c * d * Math.max(0, x - k - l) ** 4) / 24, 0),
    0,
  );
}
