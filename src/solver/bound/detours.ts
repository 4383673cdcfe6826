/**
 * Cheapest cost from each node to each other when one may pass through those of `through`, the first ones, at the cost given there (Floyd
 * 1962, Commun ACM 5:345). `cost` is flat, from * nodes + to, and stays as it is. Never more than any schedule pays, and
 * leaving a node out never makes a route dearer: given ways, and ways cut to whole units, can break that law by themselves.
 */
export function detoured(cost: Float64Array, through: ArrayLike<number>): Float64Array {
  const size = Math.round(Math.sqrt(cost.length));
  const best = cost.slice();
  for (let k = 0; k < through.length; k += 1)
    for (let i = 0; i < size; i += 1) {
      if (i === k) continue;
      const first = best[i * size + k]! + through[k]!;
      for (let j = 0; j < size; j += 1) {
        const whole = first + best[k * size + j]!;
        if (whole < best[i * size + j]!) best[i * size + j] = whole;
      }
    }
  return best;
}
