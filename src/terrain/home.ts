import { pulse } from "../kernel/index.ts";
import { slopeW, walkingMs } from "../physics/index.ts";
import type { Gait, SiteInput } from "./ground.ts";
import { legBackSeconds, legSlopeRad, lineBetween } from "./legs.ts";
import { linesHome, STEEPEST_CONVEX } from "./lineshome.ts";
import { clearTriangle, distanceToLine } from "./shapes.ts";
import { farthestOn, type WalkbackReach, reachOf } from "./reach.ts";
import { atOnce, memory, numberOf } from "./remember.ts";
import { reliefNetwork, stops, type Ways, waysInSteps, waysKey } from "./ways.ts";

/**
 * The way back to the lander: from every place, and the worst of it along every way.
 *
 * Over open ground the walking time straight to the lander is convex along a straight way, so it is greatest at an
 * end. Where that cannot be relied on (a leg the planner gave, whose ground is unknown; a lander out of direct reach
 * from an end; a keep-out between the way and the lander) somebody inside the way goes home by one of
 * its ends, and the worst point is where both are equally far. Where only heights spoil it, because a straight way passes the
 * lander above or below its footing, they may also go straight home, never steeper than is allowed (`lineshome.ts`).
 *
 * Over a height grid the worst point of a trail is looked for along it, a cell apart: home is the quickest way over
 * the ground from there, whatever the planned ways spare.
 */

export interface Home {
  /** Walk-back time from each place, whole seconds, rounded up; -1 where there is no way home. */
  readonly placeS: Int32Array;
  /** Walk-back distance from each place, whole metres; -1 where there is no way home. */
  readonly placeM: Int32Array;
  /** Mean slope angle of the walk-back from each place, radians: what `Ways.slopeRad` holds. */
  readonly placeSlopeRad: Float64Array;
  /** Worst walk-back time on each way, flat like Ways; -1 where there is no way. */
  readonly peakS: Int32Array;
  /**
   * Slope angle that the worst walk-back on each way counts with, where it lies between the ends: the hardest of the ways home
   * from the places gone through and of what is walked to get to them.
   */
  readonly peakSlopeRad: Float64Array;
  /** The ways home that all this comes from. */
  readonly back: Ways;
}

/** Pairs of places of all remembered ways home together, at about 12 bytes each. */
const PAIR_ROOM = 6_000_000;
const known = memory<Home>(PAIR_ROOM, (home) => home.peakS.length);

/** Walk-back times over `ground` for somebody going home with `gait`, along the planned `ways`; worked out once for these ways. */
export function homeOf(ground: SiteInput, ways: Ways, gait: Gait): Home {
  return known.of(homeKey(ground, ways, gait), () => atOnce(workingOut(ground, ways, gait)));
}

/** The same in steps, each of which says how many places are done; none where it is known. */
export function* homeInSteps(ground: SiteInput, ways: Ways, gait: Gait): Generator<number, Home> {
  const key = homeKey(ground, ways, gait);
  if (!known.has(key)) known.take([[key, yield* workingOut(ground, ways, gait)]]);
  return homeOf(ground, ways, gait);
}

/** Remembers the way home along `ways` that was worked out elsewhere. */
export function takeHome(ground: SiteInput, ways: Ways, gait: Gait, home: Home): void {
  known.take([[homeKey(ground, ways, gait), home]]);
}

function homeKey(ground: SiteInput, ways: Ways, gait: Gait): string {
  return `${numberOf(ways)} ${waysKey(ground, gait)}`;
}

function* workingOut(ground: SiteInput, ways: Ways, gait: Gait): Generator<number, Home> {
  const back = yield* waysInSteps(ground, quickest(gait));
  const { size, lander } = ways;
  const places = { length: size };
  const placeS = Int32Array.from(places, (_, i) => back.durationS[i * size + lander]!);
  const placeM = Int32Array.from(places, (_, i) => back.distanceM[i * size + lander]!);
  const placeSlopeRad = Float64Array.from(places, (_, i) => back.slopeRad[i * size + lander]!);
  const peaks = new Peaks(ground, ways, gait, { back, placeS, placeSlopeRad });
  const peakS = new Int32Array(size * size).fill(-1);
  const peakSlopeRad = new Float64Array(size * size);
  for (let i = 0; i < size; i += 1) {
    yield i;
    for (let j = 0; j < size; j += 1) {
      if (ways.durationS[i * size + j]! < 0) continue;
      pulse();
      const path = stops(ways, i, j);
      let worst: Peak = { seconds: placeS[i]!, slopeRad: placeSlopeRad[i]! };
      for (let k = 1; k < path.length; k += 1) worst = worse(worst, peaks.hopPeak(path[k - 1]!, path[k]!));
      peakS[i * size + j] = worst.seconds;
      peakSlopeRad[i * size + j] = worst.slopeRad;
    }
  }
  return { placeS, placeM, placeSlopeRad, peakS, peakSlopeRad, back };
}

/** The worst walk-back on each direct way between two places, given those from its ends. */
class Peaks {
  private readonly ground: SiteInput;
  private readonly ways: Ways;
  private readonly gait: Gait;
  private readonly back: Ways;
  private readonly placeS: Int32Array;
  private readonly placeSlopeRad: Float64Array;
  private readonly reach: WalkbackReach | null;
  private readonly steepest: number;

  constructor(
    ground: SiteInput,
    ways: Ways,
    gait: Gait,
    { back, placeS, placeSlopeRad }: Pick<Home, "back" | "placeS" | "placeSlopeRad">,
  ) {
    this.ground = ground;
    this.ways = ways;
    this.gait = gait;
    this.back = back;
    this.placeS = placeS;
    this.placeSlopeRad = placeSlopeRad;
    this.reach = gait.relief ? reachOn(ground, gait) : null;
    this.steepest = Math.min(STEEPEST_CONVEX, Math.tan((gait.greatestSlopeDeg * Math.PI) / 180));
  }

  /** The worst on the direct way from `a` to `b`. */
  hopPeak(a: number, b: number): Peak {
    const from = this.placeS[a]!;
    const to = this.placeS[b]!;
    const ends: Peak = {
      seconds: from < 0 || to < 0 ? -1 : Math.max(from, to),
      slopeRad: harder(this.placeSlopeRad[a]!, this.placeSlopeRad[b]!),
    };
    if (ends.seconds < 0) return ends;
    const at = a * this.ways.size + b;
    if (this.ways.legAt[at]! >= 0) return this.legPeak(a, b, ends);
    const trail = this.ways.trails?.[at];
    if (trail && this.reach) {
      const peak = farthestOn(this.reach, trail, from * this.gait.speedMs, to * this.gait.speedMs);
      if (peak === null) return { seconds: -1, slopeRad: 0 };
      const seconds = Math.ceil(peak.levelM / this.gait.speedMs - 1e-6);
      return worse(ends, { seconds, slopeRad: harder(Math.asin(peak.steepness), this.alongBoth(a, b)) });
    }
    if (this.ways.trails) return ends;
    const open = this.openness(a, b);
    if (open === "open") return ends;
    const slope = Math.tan(this.ways.slopeRad[at]!);
    const onS = this.ways.distanceM[at]! / walkingMs(this.gait.speedMs, slope);
    const backS = this.ways.distanceM[at]! / walkingMs(this.gait.speedMs, -slope);
    const byEnds: Peak = { seconds: betweenEnds(from, to, onS, backS), slopeRad: this.alongBoth(a, b) };
    if (open === "shut" || byEnds.seconds <= ends.seconds) return worse(ends, byEnds);
    const [start, end, base] = [a, b, this.ways.lander].map((place) => this.ground.places[place]!);
    const straightS = linesHome(start!, end!, base!, this.gait);
    if (straightS >= byEnds.seconds) return worse(ends, byEnds);
    return worse(ends, { seconds: straightS, slopeRad: (this.gait.greatestSlopeDeg * Math.PI) / 180 });
  }

  /** On a leg that the planner gave: its longest way home at the leg's own pace, where that is given, else by an end. */
  private legPeak(a: number, b: number, ends: Peak): Peak {
    const at = a * this.ways.size + b;
    const leg = this.ground.legs[this.ways.legAt[at]!]!;
    const there = lineBetween(this.ground, this.gait, a, b);
    const andBack = lineBetween(this.ground, this.gait, b, a);
    const onS = legBackSeconds(leg, there, this.gait);
    const backS = legBackSeconds(leg, andBack, this.gait);
    const slopeRad = harder(
      legSlopeRad(there, leg.distanceM, this.gait),
      legSlopeRad(andBack, leg.distanceM, this.gait),
    );
    const seconds =
      leg.walkbackPeakM === undefined
        ? betweenEnds(this.placeS[a]!, this.placeS[b]!, onS, backS)
        : leg.distanceM === 0
          ? Math.ceil(leg.walkbackPeakM / this.gait.speedMs)
          : Math.ceil((leg.walkbackPeakM * Math.max(onS, backS)) / leg.distanceM - 1e-6);
    return worse(ends, { seconds, slopeRad });
  }

  /** Of the direct way between two places and the way back along it, the harder slope. */
  private alongBoth(a: number, b: number): number {
    const onRad = this.ways.slopeRad[a * this.ways.size + b]!;
    const other = b * this.ways.size + a;
    const isDirect =
      this.ways.trails !== null && this.ways.durationS[other]! >= 0 && this.ways.via[other]! < 0;
    return harder(onRad, isDirect ? this.ways.slopeRad[other]! : -onRad);
  }

  /**
   * open: the lander is reached directly and alike from everywhere on the straight way from `a` to `b`. steep: so it would be,
   * but for how steep the line home is somewhere. shut: it is not.
   */
  private openness(a: number, b: number): "open" | "steep" | "shut" {
    if (a === b || a === this.ways.lander || b === this.ways.lander) return "open";
    const base = this.ground.places[this.ways.lander]!;
    const start = this.ground.places[a]!;
    const end = this.ground.places[b]!;
    if (
      this.back.legAt[a * this.ways.size + this.ways.lander]! >= 0 ||
      this.back.legAt[b * this.ways.size + this.ways.lander]! >= 0
    )
      return "shut";
    const clear = this.ground.keepOuts.every(
      (keepOut) => keepOut.kind !== "walking" || clearTriangle(keepOut.shape, start, end, base),
    );
    if (!clear) return "shut";
    const rise = Math.max(Math.abs(start.upM - base.upM), Math.abs(end.upM - base.upM));
    if (rise <= this.steepest * distanceToLine(base, start, end)) return "open";
    return this.back.via[a * this.ways.size + this.ways.lander]! < 0 &&
      this.back.via[b * this.ways.size + this.ways.lander]! < 0
      ? "steep"
      : "shut";
  }
}

/** The longest walk-back on a piece of way and the slope angle it counts with; -1 seconds where there is none. */
interface Peak {
  readonly seconds: number;
  readonly slopeRad: number;
}

/** The longer of two walk-backs, where -1 (no way) is the worst of all; with the slope of the harder one. */
function worse(a: Peak, b: Peak): Peak {
  return {
    seconds: a.seconds < 0 || b.seconds < 0 ? -1 : Math.max(a.seconds, b.seconds),
    slopeRad: harder(a.slopeRad, b.slopeRad),
  };
}

/** The slope angle of the two that asks for more power. */
function harder(a: number, b: number): number {
  if (a === b) return a;
  return slopeW(1, 1, 1, a) >= slopeW(1, 1, 1, b) ? a : b;
}

/**
 * Walk-back from the point of a way from which home by its begin (`backS` over the whole of it, then `from`) and home by its end
 * (`onS`, then `to`) take as long.
 */
function betweenEnds(from: number, to: number, onS: number, backS: number): number {
  // From a share x of the way: back and home, x backS + from, or on and home, (1 - x) onS + to.
  const share = onS + backS === 0 ? 0 : (onS + to - from) / (onS + backS);
  return Math.ceil(from + Math.min(1, Math.max(0, share)) * backS);
}

/** The walk back from everywhere on the height grid, by time. */
export function reachOn(ground: SiteInput, gait: Gait): WalkbackReach | null {
  const lander = ground.places.find((place) => place.kind === "lander");
  const quick = quickest(gait);
  if (!lander || !quick.relief) return null;
  return reachOf(reliefNetwork(ground, quick, quick.relief), [lander]);
}

/** The same gait sparing time, as who must go home goes the quickest way; and given legs at their own pace. */
export function quickest(gait: Gait): Gait {
  const legsAtMs = gait.legsAtMs ?? gait.speedMs;
  return { ...gait, legsAtMs, ...(gait.relief ? { relief: { ...gait.relief, effort: null } } : {}) };
}
