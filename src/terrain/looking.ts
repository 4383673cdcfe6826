import { type Goal, leastAt, leastBetween, type Seed } from "./goals.ts";
import { CLOSED, type Lattice, SCALE } from "./lattice.ts";
import type { Midst } from "./midst.ts";
import type { Memory } from "./remember.ts";
import type { Point } from "./shapes.ts";
import { seedsAt, type Spread, spreadTo, turnedBack } from "./spread.ts";
import { directCost, endAt, type GroundTrail, pointAt, trailTo } from "./trail.ts";

/**
 * Looks for the trails from a place to others.
 *
 * A way need not be looked for where it would cost more than one that is known: the straight one, or the way that leads back, walked the
 * other way round. Where neither is known, ways are looked for as far as they mostly are longer than the least that they can be; and only
 * those that are longer still as far as the midst of all places says.
 */
export interface Looked {
  readonly lattice: Lattice;
  /** The points about places by which ways come to them. */
  readonly ends: Memory<readonly Seed[]>;
  /** By the names of two places: no way from one to the other that counts costs more, thousandths. */
  readonly mosts: Memory<number>;
}

/** No more than this times the least that they can be is what ways that are not straight mostly cost. */
const MOSTLY = 1.125;

/** What stands for the way between two places. */
export function nameOf(from: Point, to: Point): string {
  return `${from.eastM} ${from.northM} to ${to.eastM} ${to.northM}`;
}

/** The trail from `place` to each of `others`; null where there is no way. */
export function lookFor(
  looked: Looked,
  place: Point,
  others: readonly Point[],
  midst: Midst,
): (GroundTrail | null)[] {
  const { lattice } = looked;
  const seeds = seedsAt(lattice.footing, place, false);
  const found: (GroundTrail | null)[] = others.map(() => null);
  let left = others.map((other, k) => ({ k, ...goalOf(looked, place, other) }));
  while (left.length > 0) {
    const field = spreadTo(
      lattice,
      seeds,
      left.map(({ goal }) => goal),
    );
    const missed = left.filter(({ goal, isGuess }) => isGuess && leastAt(field.cost, goal) === goal.most);
    for (const one of left) {
      if (missed.includes(one)) continue;
      found[one.k] = trailTo(lattice, field, place, one.goal);
      noteBack(looked, field, place, one.goal);
    }
    left = missed.map(({ k, goal }) => {
      return { k, goal: { ...goal, most: midst.most(seeds, goal.ends) }, isGuess: false };
    });
  }
  return found;
}

function goalOf(looked: Looked, from: Point, place: Point): { goal: Goal; isGuess: boolean } {
  const { footing } = looked.lattice;
  const ends = endsAt(looked, place);
  const direct = directCost(footing, from, place);
  const most = Math.min(direct, looked.mosts.known(nameOf(from, place)) ?? CLOSED);
  const isGuess = most === CLOSED;
  return {
    goal: { place, ends, direct, most: isGuess ? MOSTLY * leastBetween(footing, from, place) : most },
    isGuess,
  };
}

function endsAt({ lattice, ends }: Looked, place: Point): readonly Seed[] {
  return ends.of(`${place.eastM} ${place.northM}`, () => seedsAt(lattice.footing, place, true));
}

/** Notes what the way that `field` has come by to a goal costs when it is walked the other way round; not where the straight one is open. */
function noteBack(looked: Looked, field: Spread, place: Point, { place: goal, ends, direct }: Goal): void {
  if (direct < CLOSED) return;
  const { lattice } = looked;
  const { straight, grid } = lattice.footing;
  const end = endAt(field, { ends, direct: CLOSED });
  if (end === null || end < 0) return;
  const { seed, cost } = turnedBack(lattice, field, end);
  const last = endsAt(looked, place).find(({ at }) => at === seed);
  const point = pointAt(grid, end);
  const first = straight(goal.eastM, goal.northM, point.eastM, point.northM);
  if (cost === CLOSED || !last || first < 0) return;
  looked.mosts.take([[nameOf(goal, place), Math.ceil(first * SCALE) + cost + last.cost]]);
}
