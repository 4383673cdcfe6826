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

/** The corners left of the path through `points`, whose hops cost `costs`. */
export function pulled(footing: Footing, points: readonly Point[], costs: readonly number[]): Point[] {
  const { corners, sums } = cornersOf(points, costs);
  const kept: Point[] = [corners[0]!];
  const paid: number[] = [];
  for (let at = 0; at < corners.length - 1;) {
    const [next, cost] = farthest(footing, corners, sums, at);
    kept.push(corners[next]!);
    paid.push(cost);
    at = next;
  }
  for (let round = 0; round < ROUNDS; round += 1) {
    const dropped = drop(footing, kept, paid);
    const moved = nudge(footing, kept, paid, footing.grid.cellM / 2 ** (round % 3));
    if (!dropped && !moved && round >= 2) break;
  }
  return kept;
}

/** The points where the path turns, and what it has cost up to each. */
function cornersOf(points: readonly Point[], costs: readonly number[]): { corners: Point[]; sums: number[] } {
  const corners: Point[] = [points[0]!];
  const sums: number[] = [0];
  let sum = 0;
  for (let k = 1; k < points.length; k += 1) {
    sum += costs[k - 1]!;
    const next = points[k + 1];
    if (next && isStraight(points[k - 1]!, points[k]!, next)) continue;
    corners.push(points[k]!);
    sums.push(sum);
  }
  return { corners, sums };
}

function isStraight(a: Point, b: Point, c: Point): boolean {
  const cross = (b.eastM - a.eastM) * (c.northM - b.northM) - (b.northM - a.northM) * (c.eastM - b.eastM);
  return Math.abs(cross) < 1e-9 * Math.hypot(c.eastM - a.eastM, c.northM - a.northM) ** 2;
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
function drop(footing: Footing, kept: Point[], paid: number[]): boolean {
  let changed = false;
  for (let k = 1; k < kept.length - 1;) {
    const direct = straight(footing, kept[k - 1]!, kept[k + 1]!, (paid[k - 1]! + paid[k]!) * (1 + NOISE));
    if (direct >= 0) {
      kept.splice(k, 1);
      paid.splice(k - 1, 2, direct);
      changed = true;
    } else k += 1;
  }
  return changed;
}

/** Moves each corner by `byM` in eight directions where that is cheaper; true when one was moved. */
function nudge(footing: Footing, kept: Point[], paid: number[], byM: number): boolean {
  let changed = false;
  for (let k = 1; k < kept.length - 1; k += 1) {
    for (let turn = 0; turn < 8; turn += 1) {
      const angle = (turn * Math.PI) / 4;
      const here = kept[k]!;
      const there = {
        eastM: here.eastM + byM * Math.cos(angle),
        northM: here.northM + byM * Math.sin(angle),
      };
      const next = kept[k + 1]!;
      const most = (paid[k - 1]! + paid[k]!) * LESS;
      const least = footing.perM * Math.hypot(next.eastM - there.eastM, next.northM - there.northM);
      const first = straight(footing, kept[k - 1]!, there, most - least);
      if (first < 0) continue;
      const second = straight(footing, there, next, most - first);
      if (second < 0) continue;
      kept[k] = there;
      paid[k - 1] = first;
      paid[k] = second;
      changed = true;
    }
  }
  return changed;
}

function straight(footing: Footing, a: Point, b: Point, most: number): number {
  return footing.straight(a.eastM, a.northM, b.eastM, b.northM, most);
}
