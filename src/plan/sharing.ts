/** Amounts in two parts whose sum is the whole, to the last bit: a split may neither lose nor make anything. */

/** How far from the proportion a part may lie for the sake of plain figures, in grains. */
const FARTHEST = 32;
/** A whole of fewer grains than this is shared on the next finer grain. */
const FEW = 20;

/**
 * `total` (0 or more, any unit) in two parts, the first near `share` (0 to 1) of it. `grains` are how many grains a
 * unit has (100: hundredths), the coarsest first: the first part is a whole number of them, so that sums of parts
 * rounded up grain by grain do not grow. `first + second === total` in floating point.
 */
export function sharedAmount(
  total: number,
  share: number,
  grains: readonly number[],
): readonly [first: number, second: number] {
  const grain = grains.find((one) => total * one >= FEW) ?? grains.at(-1)!;
  const near = Math.round(total * share * grain);
  for (let k = 0; k <= 2 * FARTHEST; k += 1) {
    const count = near + (k % 2 === 0 ? k / 2 : -(k + 1) / 2);
    const first = count / grain;
    const second = Number((total - first).toFixed(9));
    if (first >= 0 && second >= 0 && first + second === total) return [first, second];
  }
  // The difference to a part of at least half is exact (Sterbenz 1974, Floating-Point Computation, theorem 4.3.1).
  const larger = total * Math.max(share, 1 - share);
  const smaller = total - larger;
  return share < 0.5 ? [smaller, larger] : [larger, smaller];
}

/** `total` (a whole number, 0 or more) in two whole parts, the first the largest not above `share` of it. */
export function sharedWhole(total: number, share: number): readonly [first: number, second: number] {
  const first = Math.min(total, Math.floor(total * share));
  return [first, total - first];
}
