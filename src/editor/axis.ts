import { scaleLinear } from "d3-scale";

/** A straight scale from a stretch of values to one of pixels, and round values along it. */
export function axisScale(
  values: readonly [number, number],
  px: readonly [number, number],
): { readonly px: (value: number) => number; readonly ticks: (about: number) => readonly number[] } {
  const scale = scaleLinear(values, px);
  return { px: (value) => scale(value), ticks: (about) => scale.ticks(about) };
}
