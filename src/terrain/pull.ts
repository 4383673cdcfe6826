import type { Footing } from "./footing.ts";
import type { Point } from "./shapes.ts";

/**
 * Pulls a path of many hops straight: corners that a straight piece may skip are dropped, the others moved about by
 * parts of a cell while that makes the way cheaper. Every piece that is put in is open and costs no more than what it
 * replaces. Range: paths on a lattice. Not covered: a cheaper way on another side of an obstacle than the path's.
 */
const ROUNDS = 6;
/** A saving below this share is noise. */
const NOISE = 1e-9;
/** A corner is moved for a saving of at least this share. */
const LESS = 1 - 1e-5;
/** How far corners are moved in the rounds, in turn: by a cell divided by 1, 2 and 4. */
const SIZES = 3;
/** East and north of the eight directions. */
const DIRECTIONS = Array.from({ length: 8 }, (_, turn) => {
  const angle = (turn * Math.PI) / 4;
  return { east: Math.cos(angle), north: Math.sin(angle) };
});

/** A path while it is pulled. */
interface Pulling {
  readonly corners: Point[];
  /** What the piece from each corner to the next costs. */
  readonly paid: number[];
  /** By corner, bits: what was tried in vain since it or a corner beside it changed, a size of move each, and `DROP`. */
  readonly tried: number[];
}

const DROP = 1 << SIZES;

/** The corners left of the path by `corners`, up to each of which it costs so much. */
export function pulled(footing: Footing, corners: readonly Point[], sums: readonly number[]): Point[] {
  const kept: Point[] = [corners[0]!];
  const paid: number[] = [];
  for (let at = 0; at < corners.length - 1;) {
    const [next, cost] = farthest(footing, corners, sums, at);
    kept.push(corners[next]!);
    paid.push(cost);
    at = next;
  }
  const pulling: Pulling = { corners: kept, paid, tried: kept.map(() => 0) };
  for (let round = 0; round < ROUNDS; round += 1) {
    const dropped = drop(footing, pulling);
    const moved = nudge(footing, pulling, round % SIZES);
    if (!dropped && !moved && round >= 2) break;
  }
  return kept;
}

/** The farthest corner reached straight from corner `at` at no more than the path's cost, by halving; and that cost. */
function farthest(
  footing: Footing,
  corners: readonly Point[],
  sums: readonly number[],
  at: number,
): [corner: number, cost: number] {
  const price = (to: number): number => {
    return straight(footing, corners[at]!, corners[to]!, (sums[to]! - sums[at]!) * (1 + NOISE));
  };
  const last = corners.length - 1;
  let high = last + 1;
  let low = at + 1;
  let cost = sums[low]! - sums[at]!;
  const better = price(low);
  if (better >= 0) cost = better;
  for (let to = last; to > low; to = at + Math.floor((to - at) / 2)) {
    const found = price(to);
    if (found >= 0) {
      low = to;
      cost = found;
      break;
    }
    high = to;
  }
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    const found = price(middle);
    if (found >= 0) {
      low = middle;
      cost = found;
    } else high = middle;
  }
  return [low, cost];
}

/** Drops corners that a straight piece may skip; true when one was. */
function drop(footing: Footing, { corners, paid, tried }: Pulling): boolean {
  let changed = false;
  for (let k = 1; k < corners.length - 1;) {
    const direct =
      (tried[k]! & DROP) === 0
        ? straight(footing, corners[k - 1]!, corners[k + 1]!, (paid[k - 1]! + paid[k]!) * (1 + NOISE))
        : -1;
    if (direct >= 0) {
      corners.splice(k, 1);
      paid.splice(k - 1, 2, direct);
      tried.splice(k - 1, 3, 0, 0);
      changed = true;
    } else {
      tried[k]! |= DROP;
      k += 1;
    }
  }
  return changed;
}

/** Moves each corner by a cell's part in eight directions where that is cheaper; true when one was moved. */
function nudge(footing: Footing, pulling: Pulling, size: number): boolean {
  const { corners, tried } = pulling;
  let changed = false;
  for (let k = 1; k < corners.length - 1; k += 1) {
    if ((tried[k]! & (1 << size)) !== 0) continue;
    if (!nudged(footing, pulling, k, footing.grid.cellM / 2 ** size)) {
      tried[k]! |= 1 << size;
      continue;
    }
    tried[k - 1] = tried[k] = tried[k + 1] = 0;
    changed = true;
  }
  return changed;
}

/** Moves corner `k` by `byM`, and on from there, wherever that is cheaper; true when it was. */
function nudged(footing: Footing, { corners, paid }: Pulling, k: number, byM: number): boolean {
  const before = corners[k - 1]!;
  const next = corners[k + 1]!;
  let changed = false;
  for (const { east, north } of DIRECTIONS) {
    const here = corners[k]!;
    const there = { eastM: here.eastM + byM * east, northM: here.northM + byM * north };
    const most = (paid[k - 1]! + paid[k]!) * LESS;
    const least = footing.perM * Math.hypot(next.eastM - there.eastM, next.northM - there.northM);
    const first = rough(footing, before, there, most - least);
    if (first < 0) continue;
    const second = rough(footing, there, next, most - first);
    if (second < 0 || !isOpen(footing, before, there) || !isOpen(footing, there, next)) continue;
    corners[k] = there;
    paid[k - 1] = first;
    paid[k] = second;
    changed = true;
  }
  return changed;
}

function straight(footing: Footing, a: Point, b: Point, most: number): number {
  return footing.straight(a.eastM, a.northM, b.eastM, b.northM, most);
}

function rough(footing: Footing, a: Point, b: Point, most: number): number {
  return footing.rough(a.eastM, a.northM, b.eastM, b.northM, most);
}

function isOpen(footing: Footing, a: Point, b: Point): boolean {
  return footing.isOpen(a.eastM, a.northM, b.eastM, b.northM);
}
