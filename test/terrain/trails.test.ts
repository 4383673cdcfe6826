import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { random } from "../../src/kernel/index.ts";
import { slopeW, walkingMs } from "../../src/physics/index.ts";
import { type Point, type GroundTrail } from "../../src/terrain/index.ts";
import type { HeightGrid } from "../../src/terrain/grid.ts";
import { networkOf, trailsBetween } from "../../src/terrain/network.ts";
import { CLOSED, HOPS, latticeOf } from "../../src/terrain/lattice.ts";
import { footingOf, type Terms } from "../../src/terrain/footing.ts";
import { seedsAt, spreading } from "../../src/terrain/spread.ts";
import { trailSlopeRad } from "../../src/terrain/trail.ts";
import { hill, terms } from "./hill.ts";

const point = (eastM: number, northM: number): Point => ({ eastM, northM });

/** The trail from a to b on its own. */
function between(grid: HeightGrid, walk: Terms, a: Point, b: Point): GroundTrail | null {
  return trailsBetween(networkOf(grid, walk), [a, b])[1]!;
}

const size = { columns: 81, rows: 81, cellM: 10, westM: -400, southM: -400 };

/**
 * Metabolic energy in J of walking the trail at `speedMs` on the level: `levelW` over the time, and the work of its
 * slopes with `massKg` in all (body, suit, load).
 */
function trailEnergyJ(
  trail: GroundTrail,
  load: {
    readonly levelW: number;
    readonly massKg: number;
    readonly gravityMs2: number;
    readonly speedMs: number;
  },
): number {
  const seconds = trail.levelM / load.speedMs;
  return seconds * (load.levelW + slopeW(load.massKg, load.gravityMs2, load.speedMs, trailSlopeRad(trail)));
}

describe("the spread over the lattice", () => {
  /** Plain Dijkstra: the nearest open point by looking through all of them. */
  function plain(
    hops: Int32Array,
    offset: Int32Array,
    seeds: { at: number; cost: number }[],
    backward: boolean,
  ) {
    const points = hops.length / HOPS;
    const cost = new Array<number>(points).fill(CLOSED);
    const isDone = new Array<boolean>(points).fill(false);
    for (const seed of seeds) cost[seed.at] = Math.min(cost[seed.at]!, seed.cost);
    for (;;) {
      let at = -1;
      for (let k = 0; k < points; k += 1)
        if (!isDone[k] && cost[k]! < CLOSED && (at < 0 || cost[k]! < cost[at]!)) at = k;
      if (at < 0) return cost;
      isDone[at] = true;
      for (let k = 0; k < points; k += 1) {
        for (let hop = 0; hop < HOPS; hop += 1) {
          const [from, to] = backward ? [k, at] : [at, k];
          if (from + offset[hop]! !== to) continue;
          const price = hops[from * HOPS + hop]!;
          if (price !== CLOSED && cost[at]! + price < cost[k]!) cost[k] = cost[at]! + price;
        }
      }
    }
  }

  it("is what plain Dijkstra finds, forward and backward, on rough ground with closed pieces", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1e6 }), fc.boolean(), (seed, backward) => {
        const source = random(seed);
        const grid = hill({ columns: 11, rows: 9, cellM: 10 }, () =>
          source.next() < 0.08 ? NaN : source.between(0, 9),
        );
        const keepOuts = [{ type: "disc", eastM: 40, northM: 40, radiusM: source.between(1, 25) } as const];
        const footing = footingOf(grid, { ...terms, upDeg: 30, downDeg: 35, acrossDeg: 40, keepOuts });
        const lattice = latticeOf(footing);
        const seeds = seedsAt(footing, point(12, 13), backward);
        const found = spreading(lattice, seeds, backward).everywhere();
        for (let at = 0; at < grid.heightM.length; at += 1) lattice.workOut(at);
        expect([...found.cost]).toEqual(plain(lattice.hops, lattice.offset, seeds, backward));
      }),
      { numRuns: 60 },
    );
  });
});

describe("trails against closed forms", () => {
  it("is the straight line on the level, in any direction", () => {
    const flat = hill(size, () => 0);
    fc.assert(
      fc.property(fc.integer({ min: -390, max: 390 }), fc.integer({ min: -390, max: 390 }), (east, north) => {
        const trail = between(flat, terms, point(3, -2), point(east, north))!;
        const metres = Math.hypot(east - 3, north + 2);
        expect(trail.levelM).toBeCloseTo(metres, 6);
        expect(trail.distanceM).toBeCloseTo(metres, 6);
      }),
      { numRuns: 100 },
    );
  });

  it("goes round a disc by two tangents and an arc, within 1 %", () => {
    const flat = hill(size, () => 0);
    for (const [radiusM, offM] of [
      [100, 0],
      [100, 40],
      [150, -60],
      [60, 20],
    ] as const) {
      const keepOuts = [{ type: "disc", eastM: 0, northM: offM, radiusM } as const];
      const trail = between(flat, { ...terms, keepOuts }, point(-300, 0), point(300, 0))!;
      // Both ends are equally far from the centre: two tangents and the arc on the nearer side.
      const awayM = Math.hypot(300, offM);
      const tangentM = Math.sqrt(awayM ** 2 - radiusM ** 2);
      const ends = Math.PI - 2 * Math.atan2(Math.abs(offM), 300);
      const arc = ends - 2 * Math.acos(radiusM / awayM);
      const exact = 2 * tangentM + radiusM * arc;
      expect(trail.distanceM).toBeGreaterThanOrEqual(exact * (1 - 1e-9));
      expect(trail.distanceM).toBeLessThanOrEqual(exact * 1.01);
    }
  });

  it("goes straight up a cone and down again: length and time of the flank, exactly", () => {
    // 1 m up in 5 m: 11.3 degrees.
    const cone = hill(size, (e, n) => 100 - Math.hypot(e, n) / 5);
    const up = between(cone, terms, point(300, 0), point(0, 0))!;
    expect(up.climbM).toBeCloseTo(60, 6);
    expect(up.descentM).toBe(0);
    const along = 300 * Math.sqrt(1 + 1 / 25);
    expect(up.distanceM).toBeCloseTo(along, 4);
    expect(up.levelM).toBeCloseTo(along / walkingMs(1, 0.2), 4);
    const down = between(cone, terms, point(0, 0), point(300, 0))!;
    expect(down.descentM).toBeCloseTo(60, 6);
    expect(down.levelM).toBeCloseTo(along / walkingMs(1, -0.2), 4);
    // Not along an axis the flank is bilinear, not a cone, between its points: within 2 %.
    const aslant = between(cone, terms, point(210, 130), point(0, 0))!;
    const flank = Math.hypot(210, 130) * Math.sqrt(1.04);
    expect(Math.abs(aslant.levelM / (flank / walkingMs(1, 0.2)) - 1)).toBeLessThan(0.02);
  });

  it("goes by the gap in a ridge that is too steep: two straight lines, within 1 %", () => {
    // A ridge along the north axis, 30 degrees steep, with a gap of level ground 40 m wide at 200 m north.
    const ridge = hill(size, (e, n) =>
      Math.abs(n - 200) <= 20 ? 0 : Math.max(0, 40 - Math.abs(e)) * Math.tan(Math.PI / 6),
    );
    const walk = { ...terms, upDeg: 20, downDeg: 20, acrossDeg: 20 };
    const trail = between(ridge, walk, point(-250, 0), point(250, 0))!;
    // The mouth of the gap is 180 m north, from 40 m west to 40 m east; the ridge's end walls are steep too, so the way
    // keeps to points whose hops are level: at the northing of the gap's edge.
    const exact = 2 * Math.hypot(210, 180) + 80;
    expect(trail.distanceM).toBeGreaterThan(exact * 0.99);
    expect(trail.distanceM).toBeLessThan(exact * 1.02);
    expect(trail.climbM).toBeLessThan(2);
  });

  it("crosses a plane steeper than its limit aslant, along the steepest line allowed, within 2 %", () => {
    // Plane of 25 degrees to the north; up at most 12 degrees: the angle from uphill has cos = tan 12 / tan 25.
    const plane = hill(size, (_, n) => n * Math.tan((25 * Math.PI) / 180));
    const limit = Math.tan((12 * Math.PI) / 180);
    const cosine = limit / Math.tan((25 * Math.PI) / 180);
    const walk = { ...terms, upDeg: 12, downDeg: 12 };
    const riseM = 200 * Math.tan((25 * Math.PI) / 180);
    const sideM = (200 / cosine) * Math.sqrt(1 - cosine ** 2);
    const trail = between(plane, walk, point(-sideM / 2, -100), point(sideM / 2, 100))!;
    const levelM = 200 / cosine;
    const exact = Math.hypot(levelM, riseM) / walkingMs(1, limit);
    expect(trail.levelM / exact).toBeGreaterThan(0.999);
    expect(trail.levelM / exact).toBeLessThan(1.02);
    expect(trail.climbM).toBeCloseTo(riseM, 6);
  });

  it("says that there is none: over a closed ring, out of the grid, into a keep-out, up a wall", () => {
    const ring = hill(size, (e, n) => (Math.abs(Math.hypot(e, n) - 150) < 25 ? 100 : 0));
    const walk = { ...terms, upDeg: 20, downDeg: 20, acrossDeg: 20 };
    expect(between(ring, walk, point(0, 0), point(300, 0))).toBeNull();
    expect(between(ring, walk, point(0, 0), point(90, 20))).not.toBeNull();
    const flat = hill(size, () => 0);
    expect(between(flat, terms, point(0, 0), point(401, 0))).toBeNull();
    const keepOuts = [{ type: "disc", eastM: 200, northM: 0, radiusM: 50 } as const];
    expect(between(flat, { ...terms, keepOuts }, point(0, 0), point(200, 10))).toBeNull();
    const hole = hill(size, (e) => (e > 100 && e < 125 ? NaN : 0));
    expect(between(hole, terms, point(0, 0), point(200, 0))).toBeNull();
  });

  it("may go down where it may not go up", () => {
    const plane = hill({ columns: 41, rows: 3, cellM: 10 }, (e) => e * Math.tan((15 * Math.PI) / 180));
    // Aslant it would be less steep, but the ground across would then be steeper than 10 degrees:
    // cos a tan 15 <= tan 10 and sin a tan 15 <= tan 10 have no common a.
    const walk = { ...terms, upDeg: 10, downDeg: 20, acrossDeg: 10 };
    expect(between(plane, walk, point(300, 10), point(0, 10))).not.toBeNull();
    expect(between(plane, walk, point(0, 10), point(300, 10))).toBeNull();
  });

  it("does not walk along ground that falls off too steeply to the side, nor tack there", () => {
    const plane = hill({ columns: 41, rows: 5, cellM: 10 }, (_, n) => n * Math.tan((15 * Math.PI) / 180));
    const along = (acrossDeg: number) =>
      between(plane, { ...terms, upDeg: 3, downDeg: 3, acrossDeg }, point(0, 20), point(300, 20));
    expect(along(14)).toBeNull();
    expect(along(16)!.distanceM).toBeCloseTo(300, 6);
  });
});

describe("laws of trails", () => {
  const spots = fc.array(fc.tuple(fc.integer({ min: -390, max: 390 }), fc.integer({ min: -390, max: 390 })), {
    minLength: 2,
    maxLength: 5,
  });
  const rough = (seed: number): HeightGrid => {
    const source = random(seed);
    const [a, b, c, d] = Array.from({ length: 4 }, () => source.between(0.005, 0.03)) as [
      number,
      number,
      number,
      number,
    ];
    return hill(size, (e, n) => 8 * Math.sin(a * e) * Math.cos(b * n) + 5 * Math.sin(c * e + d * n));
  };
  const discs = [{ type: "disc", eastM: 60, northM: 30, radiusM: 90 } as const];

  it("is the same there and back on level ground, keep-outs or not", () => {
    const flat = hill(size, () => 0);
    fc.assert(
      fc.property(spots, fc.boolean(), (list, shut) => {
        const places = list.map(([e, n]) => point(e, n));
        const table = trailsBetween(networkOf(flat, { ...terms, keepOuts: shut ? discs : [] }), places);
        places.forEach((_, i) =>
          places.forEach((__, j) => {
            const there = table[i * places.length + j]!;
            const back = table[j * places.length + i]!;
            expect(there === null).toBe(back === null);
            if (there && back) expect(there.levelM).toBeCloseTo(back.levelM, 6);
          }),
        );
      }),
      { numRuns: 40 },
    );
  });

  it("holds the triangle inequality on any ground, and is never shorter than the straight line", () => {
    fc.assert(
      fc.property(spots, fc.integer({ min: 0, max: 20 }), (list, seed) => {
        const places = list.map(([e, n]) => point(e, n));
        const walk = { ...terms, upDeg: 15, downDeg: 18, acrossDeg: 20, keepOuts: discs };
        const table = trailsBetween(networkOf(rough(seed), walk), places);
        const size = places.length;
        for (let i = 0; i < size; i += 1)
          for (let j = 0; j < size; j += 1) {
            const straight = table[i * size + j];
            const a = places[i]!;
            const b = places[j]!;
            if (straight) {
              const lineM = Math.hypot(a.eastM - b.eastM, a.northM - b.northM);
              expect(straight.distanceM).toBeGreaterThanOrEqual(lineM * (1 - 1e-9));
              expect(straight.levelM).toBeGreaterThanOrEqual(straight.distanceM * (1 - 1e-9));
            }
            for (let k = 0; k < size; k += 1) {
              const first = table[i * size + k];
              const second = table[k * size + j];
              if (!first || !second) continue;
              expect(straight).not.toBeNull();
              expect(straight!.cost).toBeLessThanOrEqual((first.cost + second.cost) * (1 + 1e-9));
            }
          }
      }),
      { numRuns: 40 },
    );
  });

  it("is never worse than the lattice, and every piece of it is open", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 20 }),
        fc.integer({ min: -39, max: 39 }),
        fc.integer({ min: -39, max: 39 }),
        (seed, x, y) => {
          const grid = rough(seed);
          const network = networkOf(grid, {
            ...terms,
            upDeg: 15,
            downDeg: 15,
            acrossDeg: 20,
            keepOuts: discs,
          });
          const to = point(10 * x, 10 * y);
          const trail = trailsBetween(network, [point(-300, -300), to])[1];
          const { lattice } = network;
          const field = spreading(
            lattice,
            seedsAt(network.footing, point(-300, -300), false),
            false,
          ).everywhere();
          const known = field.cost[(y + 40) * 81 + x + 40]!;
          if (known === CLOSED) return;
          expect(trail).not.toBeNull();
          expect(trail!.cost).toBeLessThanOrEqual((known / 1000) * (1 + 1e-6) + 0.2);
        },
      ),
      { numRuns: 60 },
    );
  });

  it("by energy costs no more joules than by time, and by time no more seconds than by energy", () => {
    const load = { levelW: 272, massKg: 170, gravityMs2: 1.62, speedMs: 0.9 };
    for (let seed = 0; seed < 8; seed += 1) {
      const grid = rough(seed);
      const [a, b] = [point(-300, -250), point(320, 280)];
      const quick = between(grid, terms, a, b)!;
      const easy = between(grid, { ...terms, effort: load }, a, b)!;
      expect(easy.levelM).toBeGreaterThanOrEqual(quick.levelM * (1 - 1e-4));
      expect(trailEnergyJ(easy, load)).toBeLessThanOrEqual(trailEnergyJ(quick, load) * (1 + 1e-4));
    }
  });

  it("weighs energy by hand: 300 m of flank at 1 in 5 with 170 kg", () => {
    const cone = hill(size, (e, n) => 100 - Math.hypot(e, n) / 5);
    const up = between(cone, terms, point(300, 0), point(0, 0))!;
    const load = { levelW: 272, massKg: 170, gravityMs2: 1.62, speedMs: 0.9 };
    const seconds = (300 * Math.sqrt(1.04)) / walkingMs(0.9, 0.2);
    expect(trailEnergyJ(up, load)).toBeCloseTo(seconds * (272 + slopeW(170, 1.62, 0.9, Math.atan(0.2))), 2);
    expect(trailEnergyJ(up, { ...load, massKg: 240 })).toBeGreaterThan(trailEnergyJ(up, load));
  });
});
