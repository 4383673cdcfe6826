import { walkingMs } from "../physics/index.ts";
import { clearTriangle, distanceToLine } from "./shapes.ts";
import { farthestOn, type Reach, reachOf } from "./reach.ts";
import { type Gait, type Ground, reliefNetwork, type Ways, waysOf, stops } from "./ways.ts";

/**
 * The way back to the lander: from every place, and the worst of it along every way.
 *
 * Over open ground the walking time straight to the lander is convex along a straight way, so it is greatest at an
 * end. Where that cannot be relied on (a leg the planner gave, whose ground is unknown; a lander out of direct reach
 * from an end; a keep-out between the way and the lander; steep ground) somebody inside the way goes home by one of
 * its ends, and the worst point is where both are equally far.
 *
 * Over a height grid the worst point of a trail is looked for along it, a cell apart: home is the quickest way over
 * the ground from there, whatever the planned ways spare.
 */

/** The Tobler time of a rise over a distance grows with the distance below this slope, so it is convex there. */
const STEEPEST_CONVEX = 0.26;

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
  const back = waysOf(ground, quickest(gait));
  const reach = gait.relief ? reachOn(ground, gait) : null;
  const { size, lander } = ways;
  const placeS = new Int32Array(size);
  const placeM = new Int32Array(size);
  for (let i = 0; i < size; i += 1) {
    const at = i * size + lander;
    placeM[i] = back.distanceM[at]!;
    placeS[i] = pathSeconds(back, i, lander, gait.speedMs);
  }
  const steepest = Math.min(STEEPEST_CONVEX, Math.tan((gait.greatestSlopeDeg * Math.PI) / 180));
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
    if (ways.given[at] === 1 && ways.givenPeakM[at]! >= 0) {
      return Math.max(from, to, Math.ceil(ways.givenPeakM[at]! / gait.speedMs));
    }
    const trail = ways.trails?.[at];
    if (trail && reach) {
      const peak = farthestOn(reach, trail, from * gait.speedMs, to * gait.speedMs);
      return peak === null ? -1 : Math.max(from, to, Math.ceil(peak.levelM / gait.speedMs - 1e-6));
    }
    if (ways.given[at] === 0 && !ways.trails && isOpen(a, b)) return Math.max(from, to);
    const slope = Math.tan(ways.slopeRad[at]!);
    const onS = ways.distanceM[at]! / walkingMs(gait.speedMs, slope);
    const backS = ways.distanceM[at]! / walkingMs(gait.speedMs, -slope);
    // From a share x of the way: back to `a` and home, x backS + from, or on to `b` and home, (1 - x) onS + to.
    const share = onS + backS === 0 ? 0 : (onS + to - from) / (onS + backS);
    return Math.max(from, to, Math.ceil(from + Math.min(1, Math.max(0, share)) * backS));
  }

  /** True when the lander is reached directly and alike from everywhere on the straight way from `a` to `b`. */
  function isOpen(a: number, b: number): boolean {
    if (a === b || a === lander || b === lander) return true;
    const base = ground.places[lander]!;
    const start = ground.places[a]!;
    const end = ground.places[b]!;
    if (back.given[a * size + lander] === 1 || back.given[b * size + lander] === 1) return false;
    const rise = Math.max(Math.abs(start.upM - base.upM), Math.abs(end.upM - base.upM));
    if (rise > steepest * gait.detour * distanceToLine(base, start, end)) return false;
    return ground.keepOuts.every(
      (keepOut) => keepOut.kind !== "walking" || clearTriangle(keepOut.shape, start, end, base),
    );
  }
}

/** The walk back from everywhere on the height grid, by time. */
export function reachOn(ground: Ground, gait: Gait): Reach | null {
  const lander = ground.places.find((place) => place.kind === "lander");
  const quick = quickest(gait);
  if (!lander || !quick.relief) return null;
  return reachOf(reliefNetwork(ground, quick, quick.relief), [lander]);
}

/** The same gait sparing time: who must go home goes the quickest way. */
function quickest(gait: Gait): Gait {
  return gait.relief?.effort ? { ...gait, relief: { ...gait.relief, effort: null } } : gait;
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
