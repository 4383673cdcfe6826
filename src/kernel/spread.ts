import type { Random } from "./random.ts";

/**
 * How a length that is not known spreads between its low, likely and high: two shapes to choose from.
 *
 * triangular: density straight up from low to likely and straight down to high. Drawn by inverting the distribution
 * function.
 * pert: the beta distribution between low and high with its top at likely and the mean of the PERT formula,
 * (low + 4 likely + high) / 6 (Malcolm, Roseboom, Clark & Fazar 1959, Operations Research 7:646-669). Its variance is
 * (mean - low)(high - mean) / 7; the paper's ((high - low) / 6)^2 is an approximation that no beta distribution with
 * this mean has for every likely. Drawn by rejection under the top of the density, at most 5 tries on average.
 */
export type Shape = "triangular" | "pert";

/** One draw; exactly `likely` where low and high are the same. */
export function draw(shape: Shape, low: number, likely: number, high: number, stream: Random): number {
  const wide = high - low;
  if (wide <= 0) return likely;
  return shape === "triangular"
    ? drawTriangular(low, likely, high, stream.next())
    : low + wide * drawTop((likely - low) / wide, stream);
}

function drawTriangular(low: number, likely: number, high: number, u: number): number {
  const left = likely - low;
  const wide = high - low;
  return u * wide < left
    ? low + Math.sqrt(u * wide * left)
    : high - Math.sqrt((1 - u) * wide * (high - likely));
}

/** A draw from the beta distribution on 0..1 with exponents 4 top and 4 (1 - top). */
function drawTop(top: number, stream: Random): number {
  for (;;) {
    const x = stream.next();
    const rise = top === 0 ? 1 : Math.pow(x / top, top);
    const fall = top === 1 ? 1 : Math.pow((1 - x) / (1 - top), 1 - top);
    const share = rise * fall;
    if (stream.next() < share * share * share * share) return x;
  }
}
