/** What one may do on the way: it begins at place `from`, costs so much, and ends at place `to`. */
export interface Passed {
  readonly from: number;
  readonly to: number;
  readonly cost: number;
}

/** Passing through each of so many places, for nothing. */
export function freely(places: number): readonly Passed[] {
  return Array.from({ length: places }, (_, place) => ({ from: place, to: place, cost: 0 }));
}

/**
 * Cheapest cost from each place to each other when one may do any of `passed` on the way (Floyd 1962, Commun ACM 5:345). `cost` is flat,
 * from * places + to, and stays as it is; none of it, and none of what is passed, is below 0. Never more than any schedule pays, and
 * leaving something out never makes a route dearer: given ways, and ways cut to whole units, can break that law by themselves.
 */
export function detoured(cost: Float64Array, passed: readonly Passed[]): Float64Array {
  const places = Math.round(Math.sqrt(cost.length));
  const best = cost.slice();
  for (const { from, to, cost: own } of passed)
    for (let i = 0; i < places; i += 1) {
      const first = best[i * places + from]! + own;
      for (let j = 0; j < places; j += 1) {
        const whole = first + best[to * places + j]!;
        if (whole < best[i * places + j]!) best[i * places + j] = whole;
      }
    }
  return best;
}

/** Of what is passed between the same two places the cheapest: the others help no detour. */
export function cheapest(passed: readonly Passed[]): readonly Passed[] {
  const byPlaces = new Map<string, Passed>();
  for (const one of passed) {
    const key = `${one.from} ${one.to}`;
    const known = byPlaces.get(key);
    if (!known || one.cost < known.cost) byPlaces.set(key, one);
  }
  return [...byPlaces.values()];
}
