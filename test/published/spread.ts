import type { Shape } from "../../src/kernel/index.ts";

/** A length that is not known; mean and variance of its two shapes by textbook arithmetic, as the head of kernel/spread has them. */
export interface Spread {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

export function meanOf(shape: Shape, { low, likely, high }: Spread): number {
  return shape === "triangular" ? (low + likely + high) / 3 : (low + 4 * likely + high) / 6;
}

/** In the squared unit of the length. */
export function varianceOf(shape: Shape, spread: Spread): number {
  const { low, likely, high } = spread;
  if (shape === "triangular") {
    return (low * low + likely * likely + high * high - low * likely - low * high - likely * high) / 18;
  }
  const mean = meanOf(shape, spread);
  return ((mean - low) * (high - mean)) / 7;
}
