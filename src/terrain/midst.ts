import type { Seed } from "./goals.ts";
import { CLOSED, type Lattice } from "./lattice.ts";
import type { Memory } from "./remember.ts";
import type { Point } from "./shapes.ts";
import { seedsAt, spreading, type Spreading, turnedBack } from "./spread.ts";

/**
 * A point of the lattice in the midst of some places. By it ways lead from each of them to each other one, where hops may be gone both ways: what such
 * a way costs, no way that counts costs more, so that nobody needs to look farther. And where the midst leads to one place and not to another, no way
 * leads from the one to the other.
 */
export interface Midst {
  /** What a way costs, thousandths, that leads from a place with the points `seeds` about it to one with `ends`; CLOSED where none is known, 0 where there is none. */
  most(seeds: readonly Seed[], ends: readonly Seed[]): number;
}

/** A lattice and the spreads over it. */
interface Spreads {
  readonly lattice: Lattice;
  readonly fields: Memory<Spreading>;
}

/** The midst of `places`; and where few of them are `fresh`, of each of those too, since most of what is looked for begins or ends there. */
export function midstOf(spreads: Spreads, places: readonly Point[], fresh: readonly Point[] = []): Midst {
  const few = fresh.length <= MOST_FRESH ? fresh : [];
  const middles = [middleOf(places), ...few].map((place) => at(spreads, place));
  return {
    most: (seeds, ends) => middles.reduce((least, one) => Math.min(least, one.most(seeds, ends)), CLOSED),
  };
}

/** More fresh places than this have no midst of their own. */
const MOST_FRESH = 2;

/** The place that is nearest to the farthest of all. */
function middleOf(places: readonly Point[]): Point | undefined {
  const [middle] = places
    .map((place) => ({ place, farthestM: Math.max(...places.map((other) => awayM(place, other))) }))
    .sort((a, b) => a.farthestM - b.farthestM);
  return middle?.place;
}

/** What ways by the lattice point that is the nearest to `place` cost. */
function at({ lattice, fields }: Spreads, place: Point | undefined): Midst {
  const about = place ? seedsAt(lattice.footing, place, true) : [];
  const [nearest] = [...about].sort((a, b) => a.cost - b.cost);
  if (!nearest) return { most: () => CLOSED };
  const field = fields.of(`out of ${nearest.at}`, () =>
    spreading(lattice, [{ at: nearest.at, cost: 0 }], false),
  );
  return {
    most(seeds, ends) {
      const to = least(seeds, (point) =>
        field.costTo(point) === CLOSED ? CLOSED : turnedBack(lattice, field, point).cost,
      );
      const from = least(ends, (point) => field.costTo(point));
      if (from === CLOSED && seeds.every(({ at: point }) => field.costTo(point) < CLOSED)) return 0;
      return to === CLOSED || from === CLOSED ? CLOSED : to + from;
    },
  };
}

function awayM(a: Point, b: Point): number {
  return Math.hypot(a.eastM - b.eastM, a.northM - b.northM);
}

/** The least of what a point costs with its seed. */
function least(seeds: readonly Seed[], costOf: (point: number) => number): number {
  let least = CLOSED;
  for (const { at, cost } of seeds) {
    const known = costOf(at);
    if (known !== CLOSED && known + cost < least) least = known + cost;
  }
  return least;
}
