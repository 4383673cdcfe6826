import type { Shape } from "../../kernel/index.ts";

/**
 * Quantiles of a spread by the standard normal deviate that they belong to, in steps: so that lateness can be shared by
 * adding deviates (a normal copula), and drawing one is a look-up.
 */

/** Steps of a deviate from -4 to 4, both ends taken in: a deviate beyond happens once in 16,000 draws. */
export const STEPS = 513;
const STEPS_PER_SIGMA = 64;
const FARTHEST = 4;

/** The step that stands for the deviate `z`. */
export function stepOf(z: number): number {
  const step = Math.round((z + FARTHEST) * STEPS_PER_SIGMA);
  return step < 0 ? 0 : step >= STEPS ? STEPS - 1 : step;
}

/** Chance of a deviate of at most `z`, to 1e-7 (Abramowitz & Stegun 1964, 26.2.17). */
export function normalCdf(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const tail =
    (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) *
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return z >= 0 ? 1 - tail : tail;
}

/** Quantile of a spread at the chance `u`, 0 to 1. */
type Quantile = (u: number) => number;

/** The spread between `low` and `high` with its top at `likely`, by step; `likely` throughout where there is no width. */
export function quantilesOf(shape: Shape, low: number, likely: number, high: number): Float64Array {
  const quantile: Quantile =
    high <= low
      ? () => likely
      : shape === "triangular"
        ? triangular(low, likely, high)
        : pert(low, likely, high);
  return Float64Array.from({ length: STEPS }, (_, step) =>
    quantile(normalCdf(step / STEPS_PER_SIGMA - FARTHEST)),
  );
}

function triangular(low: number, likely: number, high: number): Quantile {
  const wide = high - low;
  const left = likely - low;
  return (u) =>
    u * wide < left ? low + Math.sqrt(u * wide * left) : high - Math.sqrt((1 - u) * wide * (high - likely));
}

/** Slices of the density's integral; the quantile between two of them is on the straight line. */
const SLICES = 2000;

/** See kernel/spread: density x^(4 top) (1 - x)^(4 (1 - top)) on 0..1, integrated by Simpson's rule. */
function pert(low: number, likely: number, high: number): Quantile {
  const wide = high - low;
  const top = (likely - low) / wide;
  const density = (x: number): number => Math.pow(x, 4 * top) * Math.pow(1 - x, 4 * (1 - top));
  const sums = new Float64Array(SLICES + 1);
  for (let k = 0; k < SLICES; k += 1)
    sums[k + 1] =
      sums[k]! + density(k / SLICES) + 4 * density((k + 0.5) / SLICES) + density((k + 1) / SLICES);
  const whole = sums[SLICES]!;
  return (u) => {
    const wanted = u * whole;
    let from = 0;
    let to = SLICES;
    while (to - from > 1) {
      const middle = (from + to) >> 1;
      if (sums[middle]! <= wanted) from = middle;
      else to = middle;
    }
    const part = (wanted - sums[from]!) / Math.max(Number.MIN_VALUE, sums[from + 1]! - sums[from]!);
    return low + (wide * (from + Math.min(1, part))) / SLICES;
  };
}
