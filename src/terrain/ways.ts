import { pulse } from "../kernel/index.ts";
import { slopeW, walkingMs } from "../physics/index.ts";
import type { Gait, SiteInput, Relief } from "./ground.ts";
import { legBackSeconds, legSlopeRad, lineBetween, lineM } from "./legs.ts";
import { type Network, networkOf, trailsBetween } from "./network.ts";
import { atOnce, memory, numberOf } from "./remember.ts";
import { crosses } from "./shapes.ts";
import { type GroundTrail, trailSeconds, trailSlopeRad } from "./trail.ts";

/**
 * Walking ways between the places of a site, all pairs.
 *
 * A way is the straight line times the detour factor, walked at the speed of the line's slope (rise over straight line, the
 * steeper of the two ways to see it); a leg given by the planner replaces the computed one; a line that enters a walking
 * keep-out or is too steep is closed, and the way then goes through other places where that is possible. Distances and
 * times are rounded up to whole metres and seconds, once, here.
 *
 * With a height grid a way is the cheapest trail over the ground instead, round keep-outs and steep ground; where
 * there is none, there is no way but by legs that the planner gave.
 */

/** All pairs, flat: entry `from * size + to`. */
export interface Ways {
  readonly size: number;
  /** Index of the lander. */
  readonly lander: number;
  /** Place id to index. */
  readonly index: ReadonlyMap<string, number>;
  /** Walking time, whole seconds; -1 where there is no way. */
  readonly durationS: Int32Array;
  /** Distance walked, whole metres; -1 where there is no way. */
  readonly distanceM: Int32Array;
  /** Mean slope angle of a direct way, radians, up positive; of a way round, the climb that is as hard on average. */
  readonly slopeRad: Float64Array;
  /** Level speed that the work of walking it is reckoned with, m/s: the gait's, or that of a given leg which is faster. */
  readonly paceMs: Float64Array;
  /** The place gone through first where the direct line is closed; -1 for a direct way. */
  readonly via: Int32Array;
  /** Number of the leg that the planner gave for the way; -1 where it is computed. */
  readonly legAt: Int32Array;
  /**
   * The way over the height grid; null where it is none: no way, a given leg, a way through others. Null without a
   * grid.
   */
  readonly trails: readonly (GroundTrail | null)[] | null;
}

/** Pairs of places of all remembered ways together, at about 32 bytes each. */
const PAIR_ROOM = 6_000_000;
const known = memory<Ways>(PAIR_ROOM, (ways) => ways.durationS.length);

/** The ways of `ground` for somebody walking with `gait`; worked out once for as long as that ground is looked at. */
export function waysOf(ground: SiteInput, gait: Gait): Ways {
  return known.of(waysKey(ground, gait), () => atOnce(layingOut(ground, gait)));
}

/** The same in steps, each of which says how many places are done; none where they are known. */
export function* waysInSteps(ground: SiteInput, gait: Gait): Generator<number, Ways> {
  const key = waysKey(ground, gait);
  if (!known.has(key)) known.take([[key, yield* layingOut(ground, gait)]]);
  return waysOf(ground, gait);
}

/** Remembers ways of `ground` that were worked out elsewhere. */
export function takeWays(ground: SiteInput, gait: Gait, ways: Ways): void {
  known.take([[waysKey(ground, gait), ways]]);
}

/** Says of which ground, by the object that it is, and of whose walking ways are. */
export function waysKey(ground: SiteInput, gait: Gait): string {
  const { relief, ...walked } = gait;
  return `${numberOf(ground)} ${JSON.stringify([walked, relief && { ...relief, grid: relief.grid.key }])}`;
}

function* layingOut(ground: SiteInput, gait: Gait): Generator<number, Ways> {
  const size = ground.places.length;
  const index = new Map(ground.places.map((place, i) => [place.id, i]));
  const trails: (GroundTrail | null)[] | null = gait.relief
    ? [...trailsBetween(reliefNetwork(ground, gait, gait.relief), ground.places)]
    : null;
  const ways = {
    size,
    lander: ground.places.findIndex((place) => place.kind === "lander"),
    index,
    durationS: new Int32Array(size * size).fill(-1),
    distanceM: new Int32Array(size * size).fill(-1),
    slopeRad: new Float64Array(size * size),
    paceMs: new Float64Array(size * size).fill(gait.speedMs),
    via: new Int32Array(size * size).fill(-1),
    legAt: new Int32Array(size * size).fill(-1),
    trails,
  };
  if (trails) layTrails(trails, gait, ways);
  else yield* layLines(ground, gait, ways);
  layGivenLegs(ground, gait, ways, trails);
  goThroughOthers(ways);
  weighWaysRound(ways);
  return ways;
}

/** The network that ways over `relief` are found on. */
export function reliefNetwork(ground: SiteInput, gait: Gait, relief: Relief): Network {
  return networkOf(relief.grid, {
    detour: relief.detour,
    upDeg: gait.greatestSlopeDeg,
    downDeg: relief.downDeg,
    acrossDeg: relief.acrossDeg,
    effort: relief.effort,
    keepOuts: ground.keepOuts.filter((one) => one.kind === "walking").map((one) => one.shape),
  });
}

/** The place indices of the way, both ends included. */
export function stops(ways: Ways, from: number, to: number): number[] {
  const list = [from];
  let at = from;
  while (at !== to) {
    const next = ways.via[at * ways.size + to]!;
    at = next < 0 ? to : next;
    list.push(at);
  }
  return list;
}

function* layLines(ground: SiteInput, gait: Gait, ways: Ways): Generator<number, void> {
  const closed = ground.keepOuts.filter((keepOut) => keepOut.kind === "walking");
  const steepest = (gait.greatestSlopeDeg * Math.PI) / 180;
  const given = givenWays(ground, ways);
  for (const [i, a] of ground.places.entries()) {
    yield i;
    ground.places.forEach((b, j) => {
      pulse();
      const at = i * ways.size + j;
      if (i === j) {
        ways.durationS[at] = 0;
        ways.distanceM[at] = 0;
        return;
      }
      if (given[at] === 1) return;
      const { levelM, riseM } = lineBetween(ground, gait, i, j);
      const angle = levelM === 0 && riseM === 0 ? 0 : Math.atan2(riseM, levelM);
      if (Math.abs(angle) > steepest) return;
      if (closed.some((keepOut) => crosses(keepOut.shape, a, b))) return;
      const alongM = Math.hypot(levelM * gait.detour, riseM);
      ways.distanceM[at] = Math.ceil(alongM);
      ways.durationS[at] = Math.ceil(alongM / walkingMs(gait.speedMs, Math.tan(angle)));
      ways.slopeRad[at] = angle;
    });
  }
}

/** 1 for each way that the planner gave a leg for: nothing else is worked out for it. */
function givenWays({ legs }: SiteInput, { index, size }: Ways): Uint8Array {
  const given = new Uint8Array(size * size);
  for (const { from, to, bothWays } of legs) {
    const one = index.get(from);
    const other = index.get(to);
    if (one === undefined || other === undefined) continue;
    given[one * size + other] = 1;
    if (bothWays) given[other * size + one] = 1;
  }
  return given;
}

function layTrails(trails: readonly (GroundTrail | null)[], gait: Gait, ways: Ways): void {
  trails.forEach((trail, at) => {
    if (!trail) return;
    ways.distanceM[at] = Math.ceil(trail.distanceM - 1e-6);
    ways.durationS[at] = trailSeconds(trail, gait.speedMs);
    ways.slopeRad[at] = trailSlopeRad(trail);
  });
  // Standing still needs no ground, not even known one.
  for (let i = 0; i < ways.size; i += 1) {
    ways.durationS[i * ways.size + i] = 0;
    ways.distanceM[i * ways.size + i] = 0;
  }
}

function layGivenLegs(
  ground: SiteInput,
  gait: Gait,
  ways: Ways,
  trails: (GroundTrail | null)[] | null,
): void {
  ground.legs.forEach((leg, k) => {
    const one = ways.index.get(leg.from);
    const other = ways.index.get(leg.to);
    if (one === undefined || other === undefined || one === other) return;
    lay(one, other);
    if (leg.bothWays) lay(other, one);

    function lay(from: number, to: number): void {
      const at = from * ways.size + to;
      const line = lineBetween(ground, gait, from, to);
      // On the way home a leg is no shorter than the line, whatever is given.
      const home = gait.legsAtMs !== undefined;
      ways.durationS[at] = home ? legBackSeconds(leg, line, gait) : leg.durationS;
      ways.distanceM[at] = Math.ceil(home ? Math.max(leg.distanceM, lineM(line)) : leg.distanceM);
      ways.slopeRad[at] = legSlopeRad(line, leg.distanceM, gait);
      if (!home && leg.durationS > 0) ways.paceMs[at] = Math.max(gait.speedMs, leg.distanceM / leg.durationS);
      ways.legAt[at] = k;
      if (trails) trails[at] = null;
    }
  });
}

/** Closes the gaps: where no direct way is, the shortest one whose hops are direct ways (after Dijkstra 1959). */
function goThroughOthers(ways: Ways): void {
  const gaps = new Gaps(ways);
  for (let to = 0; to < ways.size; to += 1) {
    pulse();
    gaps.closeTo(to);
  }
}

/**
 * Ways that are not direct while they are found. For each target the places with a direct way keep it, even where going round
 * would be quicker; the others are settled nearest first, so following `via` hop by hop takes exactly the time and distance written
 * down.
 */
class Gaps {
  private readonly ways: Ways;
  /** 1 where the way is direct. */
  private readonly direct: Uint8Array;

  constructor(ways: Ways) {
    this.ways = ways;
    this.direct = Uint8Array.from(ways.durationS, (seconds) => (seconds < 0 ? 0 : 1));
  }

  closeTo(to: number): void {
    const { size } = this.ways;
    const open: number[] = [];
    for (let i = 0; i < size; i += 1) if (this.direct[i * size + to] === 0) open.push(i);
    for (const i of open) {
      for (let k = 0; k < size; k += 1) if (this.direct[k * size + to] === 1) this.relax(i, k, to);
    }
    for (let nearest = this.nearestTo(to, open); nearest >= 0; nearest = this.nearestTo(to, open)) {
      const [settled] = open.splice(nearest, 1);
      for (const i of open) this.relax(i, settled!, to);
    }
  }

  /** The position in `open` of the place with the shortest way so far; -1 where none has one. */
  private nearestTo(to: number, open: readonly number[]): number {
    const { size, durationS } = this.ways;
    let nearest = -1;
    for (const [position, i] of open.entries()) {
      const seconds = durationS[i * size + to]!;
      if (seconds < 0) continue;
      if (nearest < 0 || seconds < durationS[open[nearest]! * size + to]!) nearest = position;
    }
    return nearest;
  }

  private relax(from: number, through: number, to: number): void {
    const { size, durationS, distanceM, via } = this.ways;
    const at = from * size + to;
    const hop = from * size + through;
    const rest = through * size + to;
    if (through === from || this.direct[hop] === 0) return;
    const seconds = durationS[hop]! + durationS[rest]!;
    if (durationS[at]! >= 0 && seconds >= durationS[at]!) return;
    durationS[at] = seconds;
    distanceM[at] = distanceM[hop]! + distanceM[rest]!;
    via[at] = through;
  }
}

/** Gives every way round the climbing angle whose extra power, all along, is the mean of its hops' over time; and the fastest pace. */
function weighWaysRound(ways: Ways): void {
  const { size, durationS, slopeRad, paceMs, via } = ways;
  for (let at = 0; at < via.length; at += 1) {
    if (via[at]! < 0 || durationS[at] === 0) continue;
    const path = stops(ways, Math.floor(at / size), at % size);
    let work = 0;
    for (let k = 1; k < path.length; k += 1) {
      const hop = path[k - 1]! * size + path[k]!;
      work += durationS[hop]! * power(slopeRad[hop]!);
      paceMs[at] = Math.max(paceMs[at]!, paceMs[hop]!);
    }
    slopeRad[at] = Math.asin(work / durationS[at]! / PER_SINE);
  }
}

/** Extra power for unit mass, gravity and speed: for a climb its sine times PER_SINE. */
function power(angle: number): number {
  return slopeW(1, 1, 1, angle);
}

const PER_SINE = slopeW(1, 1, 1, Math.PI / 2);
