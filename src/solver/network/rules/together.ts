import type { Board } from "../board.ts";
import type { Problem } from "../../problem/problem.ts";
import type { Propagation } from "../propagate.ts";
import { Itinerary } from "./itinerary.ts";
import { egressS } from "./outing.ts";
import type { RuleAnswer } from "./rests.ts";

/**
 * crew-separation. Two crew members move straight and steadily between breakpoints, so they are farthest apart at one.
 *
 * Where they come too far apart somebody has left too early: as nobody waits at the place they leave (S4), the task
 * before that way is held back until the other's next departure after which the two stay near enough. What "near
 * enough" asks of two departures depends on the two ways only and is worked out once for each pair of ways, as if they
 * were straight; over a height grid they bend, so that a hold may be too short or too long, and the test tells.
 */
const TOLERANCE_M = 1e-6;
/** Squares closer to the limit than this part of it are told apart by the length itself. */
const ROUNDING = 1e-9;
/** Departures of the other that are tried before a day is given up. */
const LOOK_AHEAD = 6;

export class Together {
  private readonly problem: Problem;
  private readonly east: Float64Array;
  private readonly north: Float64Array;
  private readonly ways: readonly Itinerary[];
  private readonly offsets = new Map<number, number>();
  private readonly roams: boolean;
  /** Squared distances at or under which two are near enough for sure, and over which they are not. */
  private readonly nearM2: number;
  private readonly farM2: number;

  constructor(problem: Problem) {
    this.problem = problem;
    this.roams = problem.roamM.some((metres) => metres > 0);
    const mostM = problem.limits.apartM + TOLERANCE_M;
    this.nearM2 = mostM * mostM * (1 - ROUNDING);
    this.farM2 = mostM * mostM * (1 + ROUNDING);
    const { places } = problem.plan.site;
    this.east = Float64Array.from(places, (place) => place.eastM);
    this.north = Float64Array.from(places, (place) => place.northM);
    this.ways = Array.from({ length: 4 }, () => new Itinerary(64));
  }

  /**
   * Tests all pairs on `eva` from `fromS` on; may lay holds and raise what follows (`propagation` has begun), or only tests without
   * one.
   */
  keep(board: Board, propagation: Propagation | null, eva: number, fromS = -Infinity): RuleAnswer {
    const { routeStart } = this.problem;
    const first = routeStart[eva]!;
    const crew = routeStart[eva + 1]! - first;
    const outS = egressS(board, eva);
    for (let k = 0; k < crew; k += 1) this.ways[k]!.read(board, first + k, outS);
    let answer: RuleAnswer = "holds";
    for (let a = 0; a < crew; a += 1) {
      for (let b = a + 1; b < crew; b += 1) {
        const atS = this.firstApart(this.ways[a]!, this.ways[b]!, fromS);
        if (atS === null) continue;
        if (!propagation || !this.mend(board, propagation, this.ways[a]!, this.ways[b]!, atS)) return "fails";
        answer = "changed";
      }
    }
    return answer;
  }

  /** First breakpoint from `fromS` on at which two itineraries are too far apart; null when there is none. */
  private firstApart(one: Itinerary, other: Itinerary, fromS: number): number | null {
    let nowS = fromS - 1;
    let i = firstAfter(one, nowS);
    let j = firstAfter(other, nowS);
    for (;;) {
      const atS = Math.min(nextEvent(one, i, nowS), nextEvent(other, j, nowS));
      if (atS === Infinity) return null;
      if (this.apartAt(one, i, other, j, atS)) return atS;
      nowS = atS;
      while (i < one.count && one.endS[i]! <= nowS) i += 1;
      while (j < other.count && other.endS[j]! <= nowS) j += 1;
    }
  }

  private apartAt(one: Itinerary, i: number, other: Itinerary, j: number, atS: number): boolean {
    const { lander } = this.problem;
    const homeEast = this.east[lander]!;
    const homeNorth = this.north[lander]!;
    const east =
      place(one, i, atS, one.fromEast, one.toEast, homeEast) -
      place(other, j, atS, other.fromEast, other.toEast, homeEast);
    const north =
      place(one, i, atS, one.fromNorth, one.toNorth, homeNorth) -
      place(other, j, atS, other.fromNorth, other.toNorth, homeNorth);
    const squared = east * east + north * north;
    if (squared > this.farM2) return true;
    if (!this.roams && squared < this.nearM2) return false;
    const roamM = this.roams
      ? Math.max(roamBefore(one, i, other, j, atS), roamAfter(one, i, other, j, atS))
      : 0;
    return Math.hypot(east, north) + roamM > this.problem.limits.apartM + TOLERANCE_M;
  }

  /** Holds back whoever is on the move at `atS`, the one with more slack first. */
  private mend(board: Board, propagation: Propagation, a: Itinerary, b: Itinerary, atS: number): boolean {
    const i = moveAt(a, atS);
    const j = moveAt(b, atS);
    const aFirst = slackBefore(board, a, i) >= slackBefore(board, b, j);
    return aFirst
      ? this.holdBack(board, propagation, a, i, b) || this.holdBack(board, propagation, b, j, a)
      : this.holdBack(board, propagation, b, j, a) || this.holdBack(board, propagation, a, i, b);
  }

  /** Holds back the activity before move `i` of `one` until a departure of `other`. */
  private holdBack(
    board: Board,
    propagation: Propagation,
    one: Itinerary,
    i: number,
    other: Itinerary,
  ): boolean {
    if (i < 0) return false;
    const slot = one.slot[i]!;
    if (slot < 0 || slot >= board.head) return false;
    const node = board.nodeOf[slot]!;
    const leftS = board.earliest[node]! + this.problem.lengthS[node]!;
    const from = one.from[firstOfWay(one, i)]!;
    const to = one.to[lastOfWay(one, i)]!;
    let tried = 0;
    for (let j = 0; j < other.count && tried < LOOK_AHEAD; j += 1) {
      if (j !== firstOfWay(other, j)) continue;
      const end = lastOfWay(other, j);
      if (other.endS[end]! <= leftS) continue;
      tried += 1;
      const byS = this.leastOffset(from, to, other.from[j]!, other.to[end]!, other.slot[j]! < 0);
      if (byS === Infinity) continue;
      const laid = this.holdUntil(board, propagation, node, other, j, byS);
      if (laid !== null) return laid;
    }
    return false;
  }

  /** Holds `node` until its crew member leaves `byS` after move `j` of `other` begins; false where that cannot be, null where it does already. */
  private holdUntil(
    board: Board,
    propagation: Propagation,
    node: number,
    other: Itinerary,
    j: number,
    byS: number,
  ): boolean | null {
    const { nodeOf, earliest } = board;
    const { lengthS } = this.problem;
    // A move inside an activity begins with it, a way when the activity before it is done.
    const slot = other.slot[j]!;
    const inner = slot < 0;
    const otherNode = nodeOf[inner ? -1 - slot : slot]!;
    const movesAfterS = inner ? 0 : lengthS[otherNode]!;
    const weight = movesAfterS + byS - lengthS[node]!;
    const otherS = slot >= board.head ? other.startS[j]! - movesAfterS : earliest[otherNode]!;
    if (otherS + weight <= earliest[node]!) return null;
    return board.hold(otherNode, node, weight) && propagation.raise(node, otherS + weight);
  }

  /**
   * Least time by which the way `from`-`to` may begin after the way `otherFrom`-`otherTo` (negative: before it) such
   * that the two stay near enough while both stand before and after; whole seconds, Infinity when never.
   */
  private leastOffset(from: number, to: number, otherFrom: number, otherTo: number, inner: boolean): number {
    const { places, limits } = this.problem;
    const key = ((from * places + to) * places + otherFrom) * places + otherTo;
    const known = this.offsets.get(key);
    if (known !== undefined) return known;
    const endNear = limits.straightM[to * places + otherTo]! <= limits.apartM;
    const least = endNear ? this.searchOffset(from, to, otherFrom, otherTo, inner) : Infinity;
    this.offsets.set(key, least);
    return least;
  }

  /** As leastOffset, looked for in steps, then by halving. */
  private searchOffset(from: number, to: number, otherFrom: number, otherTo: number, inner: boolean): number {
    const { places, legS } = this.problem;
    const lastsS = legS[0]![from * places + to]!;
    const otherS = inner ? 0 : legS[0]![otherFrom * places + otherTo]!;
    const isNear = (offsetS: number): boolean =>
      this.staysNear(from, to, lastsS, otherFrom, otherTo, otherS, offsetS);
    const step = Math.max(1, Math.ceil((lastsS + otherS) / 24));
    let failsS = -lastsS - step;
    for (let offsetS = -lastsS; offsetS <= otherS + step; offsetS += step) {
      if (isNear(offsetS)) return firstNear(failsS, offsetS, isNear);
      failsS = offsetS;
    }
    return Infinity;
  }

  private staysNear(
    from: number,
    to: number,
    lastsS: number,
    otherFrom: number,
    otherTo: number,
    otherS: number,
    offsetS: number,
  ): boolean {
    for (const atS of [offsetS, offsetS + lastsS, 0, otherS]) {
      const one = share(atS - offsetS, lastsS);
      const other = share(atS, otherS);
      const { east, north } = this;
      const x = between(east[from]!, east[to]!, one) - between(east[otherFrom]!, east[otherTo]!, other);
      const y = between(north[from]!, north[to]!, one) - between(north[otherFrom]!, north[otherTo]!, other);
      if (Math.hypot(x, y) > this.problem.limits.apartM) return false;
    }
    return true;
  }
}

/** The first whole second after `failsS`, at which it is too far, up to `nearS`, at which it is near, found by halving. */
function firstNear(failsS: number, nearS: number, isNear: (atS: number) => boolean): number {
  let low = failsS;
  let high = nearS;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (isNear(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** The first of the moves of the way that move `k` is part of: a way that goes through other places has several. */
function firstOfWay(way: Itinerary, k: number): number {
  let first = k;
  while (first > 0 && way.slot[first - 1] === way.slot[k]) first -= 1;
  return first;
}

/** The last of them. */
function lastOfWay(way: Itinerary, k: number): number {
  let last = k;
  while (last + 1 < way.count && way.slot[last + 1] === way.slot[k]) last += 1;
  return last;
}

/** The first move that ends after `nowS`. */
function firstAfter(way: Itinerary, nowS: number): number {
  let k = 0;
  while (k < way.count && way.endS[k]! <= nowS) k += 1;
  return k;
}

/** When move `k` begins or, if it has begun, ends; Infinity behind the last one. */
function nextEvent(way: Itinerary, k: number, nowS: number): number {
  if (k >= way.count) return Infinity;
  return way.startS[k]! > nowS ? way.startS[k]! : way.endS[k]!;
}

/** Coordinate at `atS`, which is not before the end of move `k - 1`; `home` is the lander's. */
function place(
  way: Itinerary,
  k: number,
  atS: number,
  froms: Float64Array,
  tos: Float64Array,
  home: number,
): number {
  if (k >= way.count) return way.count === 0 ? home : tos[way.count - 1]!;
  const startS = way.startS[k]!;
  const endS = way.endS[k]!;
  const from = froms[k]!;
  const to = tos[k]!;
  if (atS >= endS) return to;
  if (atS <= startS) return from;
  return from + (to - from) * ((atS - startS) / (endS - startS));
}

/**
 * How much farther apart two may be just before `atS`, as what they do then may lead them off their way; `i` and `j` are the first
 * moves that end at `atS` or later. Who does the same activity goes along.
 */
function roamBefore(one: Itinerary, i: number, other: Itinerary, j: number, atS: number): number {
  return roamed(one, busyBefore(one, i, atS), other, busyBefore(other, j, atS));
}

/** Move `k` where it is under way just before `atS`; else -1. */
function busyBefore(way: Itinerary, k: number, atS: number): number {
  return k < way.count && way.startS[k]! < atS ? k : -1;
}

/** As roamBefore, just after `atS`. */
function roamAfter(one: Itinerary, i: number, other: Itinerary, j: number, atS: number): number {
  return roamed(one, busyAfter(one, i, atS), other, busyAfter(other, j, atS));
}

/** The first move from `first` on that is under way just after `atS`; else -1. */
function busyAfter(way: Itinerary, first: number, atS: number): number {
  let k = first;
  while (k < way.count && way.endS[k]! <= atS) k += 1;
  return k < way.count && way.startS[k]! <= atS ? k : -1;
}

function roamed(one: Itinerary, i: number, other: Itinerary, j: number): number {
  if (i >= 0 && j >= 0 && one.activity[i]! >= 0 && one.activity[i] === other.activity[j]) return 0;
  return (i < 0 ? 0 : one.roamM[i]!) + (j < 0 ? 0 : other.roamM[j]!);
}

/** Slack of the activity before move `k`; -1 where none is. */
function slackBefore(board: Board, of: Itinerary, k: number): number {
  if (k < 0 || of.slot[k]! < 0 || of.slot[k]! >= board.head) return -1;
  const node = board.nodeOf[of.slot[k]!]!;
  return board.latest[node]! - board.earliest[node]!;
}

/** The move under way at `atS` or just ended then; -1 when standing since earlier. */
function moveAt(way: Itinerary, atS: number): number {
  for (let k = 0; k < way.count; k += 1) {
    if (way.startS[k]! >= atS) return -1;
    if (way.endS[k]! >= atS) return k;
  }
  return -1;
}

function share(seconds: number, lastsS: number): number {
  if (seconds <= 0) return 0;
  return seconds >= lastsS ? 1 : seconds / lastsS;
}

function between(a: number, b: number, part: number): number {
  return a + (b - a) * part;
}
