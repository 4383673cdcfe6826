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
  if (high <= low) return new Float64Array(STEPS).fill(likely);
  return shape === "triangular" ? ofSteps(triangular(low, likely, high)) : pert(low, likely, high);
}

/** A quantile at the chance of each step. */
function ofSteps(quantile: Quantile): Float64Array {
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

/** Where the chance of each step lies on 0..SLICES, by the top of the density on 0..1: worked out once, as all days of a plan ask for the same. */
const perts = new Map<number, Float64Array>();
const MOST_PERTS = 1000;

/** See kernel/spread: density x^(4 top) (1 - x)^(4 (1 - top)) on 0..1, integrated by Simpson's rule; by step. */
function pert(low: number, likely: number, high: number): Float64Array {
  const wide = high - low;
  const top = (likely - low) / wide;
  let slices = perts.get(top);
  if (!slices) {
    if (perts.size >= MOST_PERTS) perts.clear();
    perts.set(top, (slices = pertSlices(top)));
  }
  return slices.map((slice) => low + (wide * slice) / SLICES);
}

function pertSlices(top: number): Float64Array {
  const density = (x: number): number => Math.pow(x, 4 * top) * Math.pow(1 - x, 4 * (1 - top));
  const sums = new Float64Array(SLICES + 1);
  let fromDensity = density(0);
  for (let k = 0; k < SLICES; k += 1) {
    const toDensity = density((k + 1) / SLICES);
    sums[k + 1] = sums[k]! + fromDensity + 4 * density((k + 0.5) / SLICES) + toDensity;
    fromDensity = toDensity;
  }
  const whole = sums[SLICES]!;
  let at = 0;
  return ofSteps((u) => {
    const wanted = u * whole;
    // Chances rise from step to step.
    while (at < SLICES - 1 && sums[at + 1]! <= wanted) at += 1;
    return at + Math.min(1, (wanted - sums[at]!) / Math.max(Number.MIN_VALUE, sums[at + 1]! - sums[at]!));
  });
}
