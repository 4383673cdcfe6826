import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { random } from "../../src/kernel/index.ts";
import { type Point } from "../../src/terrain/index.ts";
import type { HeightGrid } from "../../src/terrain/grid.ts";
import { farthestOn, reachOf } from "../../src/terrain/reach.ts";
import { networkOf, trailsBetween } from "../../src/terrain/network.ts";
import { footingOf } from "../../src/terrain/footing.ts";
import { CLOSED, EAST, HOPS, latticeOf, NORTH } from "../../src/terrain/lattice.ts";
import { surveyed } from "../../src/terrain/trail.ts";
import { gradientAt } from "./gradient.ts";
import { hill, terms } from "./hill.ts";

const point = (eastM: number, northM: number): Point => ({ eastM, northM });
const tan = (deg: number): number => Math.tan((deg * Math.PI) / 180);

/** Every height drawn by itself: slopes change as much as they can from cell to cell. */
function rough(seed: number, swingM: number, columns = 41): HeightGrid {
  const source = random(seed);
  return hill({ columns, rows: columns, cellM: 10 }, () => source.between(0, swingM));
}

/** Steepest slopes on straight pieces, looked at every hundredth of a cell; the independent word on what is walked. */
function sampled(grid: HeightGrid, points: readonly Point[]): { up: number; down: number; across: number } {
  const worst = { up: 0, down: 0, across: 0 };
  for (let k = 1; k < points.length; k += 1) {
    const [a, b] = [points[k - 1]!, points[k]!];
    const lengthM = Math.hypot(b.eastM - a.eastM, b.northM - a.northM);
    if (lengthM === 0) continue;
    const unit = { east: (b.eastM - a.eastM) / lengthM, north: (b.northM - a.northM) / lengthM };
    const looks = Math.ceil(lengthM / (grid.cellM / 100));
    for (let i = 0; i < 2 * looks; i += 1) {
      // A micron to the left and to the right, since on an edge between two cells the ground has two slopes; never at an
      // end or halfway, where a piece may only touch the corner of a cell that it does not enter.
      const share = (Math.floor(i / 2) + Math.SQRT1_2) / looks;
      const asideM = i % 2 === 0 ? 1e-6 : -1e-6;
      const east = a.eastM + (b.eastM - a.eastM) * share + asideM * unit.north;
      const north = a.northM + (b.northM - a.northM) * share - asideM * unit.east;
      const rise = gradientAt(grid, east, north);
      if (Number.isNaN(rise.east)) continue;
      const along = rise.east * unit.east + rise.north * unit.north;
      worst.up = Math.max(worst.up, along);
      worst.down = Math.max(worst.down, -along);
      worst.across = Math.max(worst.across, Math.abs(rise.east * unit.north - rise.north * unit.east));
    }
  }
  return worst;
}

describe("S5: the slope limits hold at every point that is walked", () => {
  it("closes a piece that is too steep only in a corner of a cell", () => {
    // One corner 4 m up on a 10 m cell: the south side is level, the north side rises 4 in 10. Walked 1 m inside the
    // west side northwards the rise is 0.1 x 4 / 10 = 0.04; across it, at the north side, 0.4, at the middle 0.2.
    const grid = hill({ columns: 2, rows: 2, cellM: 10 }, (e, n) => (e * n) / 25);
    const walk = (acrossDeg: number): number =>
      footingOf(grid, { ...terms, acrossDeg }).straight(1, 0, 1, 10);
    // atan 0.4 is 21.8 degrees, atan 0.2, which a look halfway would give, 11.3.
    expect(walk(21.7)).toBe(-1);
    expect(walk(21.9)).toBeGreaterThan(0);
    // Eastwards along the north side and down the middle: rise 0.4 and 0.2 all along, in either direction.
    const climb = (upDeg: number, downDeg: number, northM: number, back: boolean): number => {
      const { straight } = footingOf(grid, { ...terms, upDeg, downDeg });
      return back ? straight(10, northM, 0, northM) : straight(0, northM, 10, northM);
    };
    expect(climb(21.7, 45, 10, false)).toBe(-1);
    expect(climb(21.9, 1, 10, false)).toBeGreaterThan(0);
    expect(climb(1, 21.7, 10, true)).toBe(-1);
    expect(climb(1, 21.9, 10, true)).toBeGreaterThan(0);
    // The diagonal climbs t^2 / 50 for t along it in units of its ends: 4 m in 14.1 m, mean 15.8 degrees, but 29.5 at
    // its end: the slope is (v + u) x 0.4 / sqrt 2 there, 0.8 / 1.414 = 0.566.
    const diagonal = (upDeg: number): number => footingOf(grid, { ...terms, upDeg }).straight(0, 0, 10, 10);
    expect(diagonal(29.4)).toBe(-1);
    expect(diagonal(29.6)).toBeGreaterThan(0);
  });

  it("looks to both sides of an edge between two cells", () => {
    // South of the line level, north of it 5 m in 10: along the line both sides count.
    const grid = hill({ columns: 3, rows: 3, cellM: 10 }, (_, n) => (n > 10 ? 5 : 0));
    const along = (acrossDeg: number): number =>
      footingOf(grid, { ...terms, acrossDeg }).straight(0, 10, 20, 10);
    expect(along(26)).toBe(-1);
    expect(along(27)).toBeGreaterThan(0);
  });

  it("holds on every trail over rough ground, looked at a hundred times a cell", () => {
    let trails = 0;
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1e6 }), (seed) => {
        const grid = rough(seed, 4.2);
        const walk = { ...terms, upDeg: 12, downDeg: 16, acrossDeg: 12 };
        const places = [point(23, 41), point(371, 358), point(180, 207), point(352.5, 30)];
        for (const trail of trailsBetween(networkOf(grid, walk), places)) {
          if (!trail || trail.points.length < 2) continue;
          trails += trail.distanceM > 0 ? 1 : 0;
          const worst = sampled(grid, trail.points);
          expect(worst.up).toBeLessThanOrEqual(tan(12) + 1e-6);
          expect(worst.down).toBeLessThanOrEqual(tan(16) + 1e-6);
          expect(worst.across).toBeLessThanOrEqual(tan(12) + 1e-6);
        }
      }),
      { numRuns: 12 },
    );
    expect(trails).toBeGreaterThan(20);
  });

  it("turns nobody back along a way that is too steep that way at one of its points", () => {
    // Down the diagonal of one corner 4 m up: each half climbs at most 3 m in 7.07 when gone back, 23 degrees, but 29.5 at
    // its top. Uphill 25 degrees are allowed: from halfway home is on by the end, 7.07 m and more, then 1000.
    const grid = hill({ columns: 2, rows: 2, cellM: 10 }, (e, n) => (e * n) / 25);
    const network = networkOf(grid, { ...terms, upDeg: 25, acrossDeg: 15 });
    const [top, foot] = [point(10, 10), point(0, 0)];
    const down = surveyed(network.footing, [top, foot]);
    const peak = farthestOn(reachOf(network, [top]), down, 0, 1000)!;
    expect(peak.levelM).toBeGreaterThan(1007);
    expect(peak.at).toEqual(point(5, 5));
    // Where 30 degrees are allowed the turn back is the shorter one, and the end is the farthest point.
    const gentle = networkOf(grid, { ...terms, upDeg: 30, acrossDeg: 15 });
    expect(farthestOn(reachOf(gentle, [top]), down, 0, 1000)!.levelM).toBe(1000);
  });

  it("is the same for the hops of the net as for straight pieces, unknown heights included", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1e6 }), (seed) => {
        const source = random(seed);
        const grid = hill({ columns: 7, rows: 6, cellM: 10 }, () =>
          source.next() < 0.06 ? NaN : source.between(0, 7),
        );
        const footing = footingOf(grid, { ...terms, upDeg: 20, downDeg: 28, acrossDeg: 24 });
        const lattice = latticeOf(footing);
        for (let at = 0; at < grid.heightM.length; at += 1) {
          for (let hop = 0; hop < HOPS; hop += 1) {
            const [column, row] = [at % 7, Math.floor(at / 7)];
            const [toColumn, toRow] = [column + EAST[hop]!, row + NORTH[hop]!];
            if (toColumn < 0 || toRow < 0 || toColumn > 6 || toRow > 5) continue;
            const cost = footing.straight(10 * column, 10 * row, 10 * toColumn, 10 * toRow);
            expect({ at, hop, open: lattice.price(at, hop) !== CLOSED }).toEqual({
              at,
              hop,
              open: cost >= 0,
            });
          }
        }
      }),
      { numRuns: 60 },
    );
  });
});
