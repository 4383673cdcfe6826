import { pulse } from "../kernel/index.ts";
import { type Footing, footingOf, type Terms } from "./footing.ts";
import type { Seed } from "./goals.ts";
import type { HeightGrid } from "./grid.ts";
import { type Lattice, type LatticeDump, latticeOf } from "./lattice.ts";
import { lookFor, nameOf } from "./looking.ts";
import { type Midst, midstOf } from "./midst.ts";
import { type Memory, memory } from "./remember.ts";
import type { Point } from "./shapes.ts";
import { seedsAt, type Spread, spreading, type Spreading, spreadOut } from "./spread.ts";
import { type GroundTrail, joinedTrails, surveyed } from "./trail.ts";

/**
 * A height grid on the terms of a walk, with all that was worked out on it. A place that moves costs its own trails, and spreads as far
 * as those go; all others are remembered.
 */
export interface Network {
  readonly footing: Footing;
  readonly lattice: Lattice;
  /** Spreads that go everywhere, as far as they were asked. */
  readonly fields: Memory<Spreading>;
  /** The points about places by which ways come to them. */
  readonly ends: Memory<readonly Seed[]>;
  /** What a way from one place to another costs at most, thousandths: that of one that leads back. */
  readonly mosts: Memory<number>;
  readonly trails: Memory<readonly [GroundTrail | null]>;
  readonly tables: Memory<readonly (GroundTrail | null)[]>;
  /** Farthest points of trails from home, kept by `reach.ts`. */
  readonly peaks: Memory<readonly [Peak | null]>;
}

/** The point of a way with the longest walk back. */
export interface Peak {
  /** Level metres home. */
  readonly levelM: number;
  readonly at: Point;
  /** As a trail's, of the way home over the ground from there; 0 where an end of the way is farther out. */
  readonly steepness: number;
}

/** A network without what is made of its grid and terms. */
export interface NetworkDump {
  readonly terms: Terms;
  readonly lattice: LatticeDump;
  /** They have come everywhere. */
  readonly fields: ReturnType<Memory<Spread>["all"]>;
  readonly trails: ReturnType<Network["trails"]["all"]>;
  readonly tables: ReturnType<Network["tables"]["all"]>;
  readonly peaks: ReturnType<Network["peaks"]["all"]>;
}

const networks = memory<Network>(4);
/** Points of all remembered spreads of a network together. */
const FIELD_ROOM = 20_000_000;
const TRAIL_ROOM = 20_000;
/** Sums of the same steps, in another order, differ by less than this share. */
const HAIR = 1e-9;
/** Above this many places ways are not made shorter by other places. */
const MOST_CLOSED = 300;

/** The network of `grid` on `terms`: the same content gives the same one, worked out once. */
export function networkOf(grid: HeightGrid, terms: Terms): Network {
  return networks.of(networkKey(grid, terms), () => {
    const footing = footingOf(grid, terms);
    return untrodden(footing, latticeOf(footing));
  });
}

/** All that was worked out on a network, as data that can be sent. */
export function networkDump({ footing, lattice, ...made }: Network): NetworkDump {
  const { hops, worked, least } = lattice;
  return {
    terms: footing.terms,
    lattice: { hops, worked, least },
    fields: made.fields.all().map(([key, field]) => {
      const { cost, hop } = field.everywhere();
      return [key, { cost, hop }];
    }),
    trails: made.trails.all(),
    tables: made.tables.all(),
    peaks: made.peaks.all(),
  };
}

/** Remembers a network over `grid` that was worked out elsewhere. */
export function takeNetwork(grid: HeightGrid, { terms, lattice, ...made }: NetworkDump): void {
  const network = networks.of(networkKey(grid, terms), () => {
    const footing = footingOf(grid, terms);
    return untrodden(footing, latticeOf(footing, lattice));
  });
  network.fields.take(made.fields.map(([key, field]) => [key, spreadOut(field)]));
  network.trails.take(made.trails);
  network.tables.take(made.tables);
  network.peaks.take(made.peaks);
}

function networkKey(grid: HeightGrid, terms: Terms): string {
  return `${grid.key} ${JSON.stringify(terms)}`;
}

/** A network on which no way was looked for yet. */
function untrodden(footing: Footing, lattice: Lattice): Network {
  return {
    footing,
    lattice,
    fields: memory<Spreading>(FIELD_ROOM, (field) => field.cost.length),
    ends: memory<readonly Seed[]>(TRAIL_ROOM),
    mosts: memory<number>(TRAIL_ROOM),
    trails: memory<readonly [GroundTrail | null]>(TRAIL_ROOM),
    tables: memory<readonly (GroundTrail | null)[]>(8),
    peaks: memory<readonly [Peak | null]>(TRAIL_ROOM),
  };
}

/** Least costs from the points of the grid to the nearest of `places`. */
export function fieldTo(network: Network, places: readonly Point[]): Spreading {
  return network.fields.of(`to ${places.map((one) => `${one.eastM} ${one.northM}`).join(", ")}`, () =>
    spreading(
      network.lattice,
      places.flatMap((place) => seedsAt(network.footing, place, true)),
      true,
    ),
  );
}

/** Trails between all places, entry `from * size + to`; null where there is no way. */
export function trailsBetween(network: Network, places: readonly Point[]): readonly (GroundTrail | null)[] {
  const key = places.map((one) => `${one.eastM} ${one.northM}`).join(", ");
  return network.tables.of(key, () => {
    const size = places.length;
    const fresh = places.filter((place) => !network.trails.has(nameOf(place, place)));
    const midst = midstOf(network, places, fresh);
    const rows = places.map((place) => trailsFrom(network, place, places, midst));
    const table: (GroundTrail | null)[] = [];
    for (let i = 0; i < size; i += 1)
      for (let j = 0; j < size; j += 1) table.push(eitherWay(network.footing, rows[i]![j]!, rows[j]![i]!));
    if (size <= MOST_CLOSED) closeTriangles(table, size);
    return table;
  });
}

/** The trail from `place` to each of `others`, as it is found from there; null where there is no way. `midst` is that of all of them. */
export function trailsFrom(
  network: Network,
  place: Point,
  others: readonly Point[],
  midst: Midst,
): readonly (GroundTrail | null)[] {
  const names = others.map((one) => nameOf(place, one));
  const known = names.map((name) => network.trails.known(name));
  const missing = others.filter((_, k) => !known[k]);
  const found = missing.length > 0 ? lookFor(network, place, missing, midst) : [];
  let next = 0;
  return known.map((one, k) => (one ?? network.trails.of(names[k]!, () => [found[next++]!]))[0]);
}

/** The way there; or the way back, walked the other way round, where that is allowed and cheaper: on level ground both are then alike. */
function eitherWay(
  footing: Footing,
  there: GroundTrail | null,
  back: GroundTrail | null,
): GroundTrail | null {
  if (!back) return there;
  const turned = reversed(footing, back, there ? there.cost * (1 + HAIR) : Infinity);
  return turned && (!there || turned.cost < there.cost) ? turned : there;
}

/** The trail walked the other way round; null where that is not allowed, or plainly costs more than `most`. */
function reversed(footing: Footing, trail: GroundTrail, most: number): GroundTrail | null {
  const points = [...trail.points].reverse();
  let left = most;
  for (let k = 1; k < points.length; k += 1) {
    const [a, b] = [points[k - 1]!, points[k]!];
    const cost = footing.straight(a.eastM, a.northM, b.eastM, b.northM, left);
    if (cost < 0) return null;
    left -= cost;
  }
  return surveyed(footing, points);
}

/** A way that is cheaper by another place goes there, so that no detour by a place is ever shorter (Floyd 1962). */
function closeTriangles(table: (GroundTrail | null)[], size: number): void {
  for (let k = 0; k < size; k += 1) {
    for (let i = 0; i < size; i += 1) {
      const first = table[i * size + k];
      if (!first || i === k) continue;
      pulse();
      goBy(table, size, i, k, first);
    }
  }
}

/** Lets the ways from place `i` lead by place `k`, to which it has `first`, where that is cheaper. */
function goBy(table: (GroundTrail | null)[], size: number, i: number, k: number, first: GroundTrail): void {
  for (let j = 0; j < size; j += 1) {
    const second = table[k * size + j];
    if (!second || j === k || j === i) continue;
    if (isCheaper(first.cost + second.cost, table[i * size + j]))
      table[i * size + j] = joinedTrails(first, second);
  }
}

/** Cheaper by more than the noise of sums. */
function isCheaper(cost: number, known: GroundTrail | null | undefined): boolean {
  return !known || cost < known.cost * (1 - 1e-12);
}
