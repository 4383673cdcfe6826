import { type Gait, type Ground, type Ways, waysOf, stops } from "./ways.ts";

/**
 * The way back to the lander: from every place, and the worst of it along every way.
 *
 * On a straight way the distance to the lander is convex, so it is greatest at an end; on a leg the planner gave,
 * whose ground is unknown, somebody inside it goes home by one of its ends, and the worst point is where both are
 * equally far.
 */
export interface Home {
  /** Walk-back time from each place, whole seconds, rounded up; -1 where there is no way home. */
  readonly placeS: Int32Array;
  /** Walk-back distance from each place, whole metres; -1 where there is no way home. */
  readonly placeM: Int32Array;
  /** Worst walk-back time on each way, flat like Ways; -1 where there is no way. */
  readonly peakS: Int32Array;
}

/** Walk-back times over `ground` for somebody going home with `gait`, along the planned `ways`. */
export function homeOf(ground: Ground, ways: Ways, gait: Gait): Home {
  const back = waysOf(ground, gait);
  const { size, lander } = ways;
  const placeS = new Int32Array(size);
  const placeM = new Int32Array(size);
  for (let i = 0; i < size; i += 1) {
    const at = i * size + lander;
    placeM[i] = back.distanceM[at]!;
    placeS[i] = pathSeconds(back, i, lander, gait.speedMs);
  }
  const peakS = new Int32Array(size * size).fill(-1);
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j < size; j += 1) {
      if (ways.durationS[i * size + j]! < 0) continue;
      const path = stops(ways, i, j);
      let worst = placeS[i]!;
      for (let k = 1; k < path.length; k += 1) {
        worst = worse(worst, hopPeak(path[k - 1]!, path[k]!));
      }
      peakS[i * size + j] = worst;
    }
  }
  return { placeS, placeM, peakS };

  function hopPeak(a: number, b: number): number {
    const from = placeS[a]!;
    const to = placeS[b]!;
    if (from < 0 || to < 0) return -1;
    const at = a * size + b;
    if (ways.given[at] === 0) return Math.max(from, to);
    if (ways.givenPeakM[at]! >= 0) return Math.max(from, to, Math.ceil(ways.givenPeakM[at]! / gait.speedMs));
    const acrossS = Math.ceil(ways.distanceM[at]! / gait.speedMs);
    return Math.max(from, to, Math.ceil((acrossS + from + to) / 2));
  }
}

/** Walking time with given legs taken at the walk-back speed: the planner's leg time belongs to the planned pace. */
function pathSeconds(back: Ways, from: number, to: number, speedMs: number): number {
  if (back.durationS[from * back.size + to]! < 0) return -1;
  const path = stops(back, from, to);
  let total = 0;
  for (let k = 1; k < path.length; k += 1) {
    const at = path[k - 1]! * back.size + path[k]!;
    total += back.given[at] === 1 ? Math.ceil(back.distanceM[at]! / speedMs) : back.durationS[at]!;
  }
  return total;
}

/** The longer of two walk-back times, where -1 (no way) is the worst of all. */
function worse(a: number, b: number): number {
  return a < 0 || b < 0 ? -1 : Math.max(a, b);
}
