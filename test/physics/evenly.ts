import fc from "fast-check";

/**
 * Numbers spread evenly from `min` to `max`, both included. fast-check's own doubles are spread over the bits of a
 * number, so nearly all of them are tiny and miss the ground that a law is about.
 */
export function evenly(min: number, max: number): fc.Arbitrary<number> {
  const steps = 1_000_000;
  return fc.integer({ min: 0, max: steps }).map((step) => min + ((max - min) * step) / steps);
}
