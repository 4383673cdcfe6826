import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { random } from "../../src/kernel/index.ts";
import { footingOf } from "../../src/terrain/footing.ts";
import { gentleCells } from "../../src/terrain/gentle.ts";
import { isGentle } from "../../src/terrain/incline.ts";
import { CLOSED, EAST, HOPS, latticeOf, NORTH } from "../../src/terrain/lattice.ts";
import { boxOf, crosses } from "../../src/terrain/shapes.ts";
import { hill, terms } from "./hill.ts";

const size = { columns: 17, rows: 14, cellM: 10 };
const anySeed = fc.integer({ min: 0, max: 1e6 });

describe("cells that are gentle whichever way they are walked", () => {
  it("say so only of pieces that are nowhere too steep and enter no keep-out, edges and grid lines included", () => {
    let gentle = 0;
    fc.assert(
      fc.property(anySeed, (seed) => {
        const source = random(seed);
        const swingM = source.between(1, 6);
        const grid = hill(size, () => (source.next() < 0.02 ? NaN : source.between(0, swingM)));
        const shape = { type: "disc", eastM: 80, northM: 70, radiusM: source.between(1, 30) } as const;
        const tan = 0.3;
        const cells = gentleCells(grid, tan, [boxOf(shape)]);
        for (let n = 0; n < 60; n += 1) {
          // Every other line begins on a grid point, and some run along a grid line.
          const on = (cells: number): number => (n % 2 === 0 ? Math.floor(cells) : cells);
          const [x, y] = [on(source.between(0, 15.9)), on(source.between(0, 12.9))];
          const toX = n % 6 === 0 ? x : source.between(0, 16);
          const toY = source.between(0, 13);
          if (!cells.hasLine(x, y, toX, toY)) continue;
          gentle += 1;
          const limits = { tanUp: tan, tanDown: tan, tanAcross: tan };
          expect(isGentle(grid, limits, 10 * x, 10 * y, 10 * toX, 10 * toY)).toBe(true);
          const [a, b] = [
            { eastM: 10 * x, northM: 10 * y },
            { eastM: 10 * toX, northM: 10 * toY },
          ];
          expect(crosses(shape, a, b)).toBe(false);
        }
      }),
      { numRuns: 60 },
    );
    expect(gentle).toBeGreaterThan(100);
  });

  it("are those of the level, and not those beside an unknown height or in a keep-out's box", () => {
    const grid = hill(size, (east, north) => (east === 30 && north === 30 ? NaN : 0));
    const box = { west: 95, east: 105, south: 95, north: 99 };
    const cells = gentleCells(grid, 0.1, [box]);
    const gentle = (column: number, row: number): boolean => cells.hasCells(column, row, column, row);
    const others: string[] = [];
    for (let row = 0; row < 13; row += 1)
      for (let column = 0; column < 16; column += 1)
        if (!gentle(column, row)) others.push(`${column} ${row}`);
    expect(others).toEqual(["2 2", "3 2", "2 3", "3 3", "9 9", "10 9"]);
    // What lies beyond the grid does not count.
    expect(cells.hasCells(-5, -5, 1, 1)).toBe(true);
    expect(cells.hasCells(20, 20, 30, 30)).toBe(true);
  });
});

describe("the least hop of a lattice", () => {
  it("is that of all open hops, keep-outs or not, in whatever order they are worked out", () => {
    fc.assert(
      fc.property(anySeed, fc.boolean(), (seed, isSteep) => {
        const source = random(seed);
        const grid = hill({ columns: 9, rows: 8, cellM: 10 }, () =>
          source.next() < 0.05 ? NaN : Math.round(source.between(0, isSteep ? 9 : 2) * 100) / 100,
        );
        const footing = footingOf(grid, { ...terms, upDeg: 20, downDeg: 28, acrossDeg: 24 });
        const lattice = latticeOf(footing);
        const order = [...grid.heightM.keys()].sort(() => source.next() - 0.5);
        const other = latticeOf(footing);
        for (const at of order) other.workOut(at);
        let least = CLOSED;
        for (const at of grid.heightM.keys()) {
          for (let hop = 0; hop < HOPS; hop += 1) {
            const price = lattice.price(at, hop);
            expect(other.hops[at * HOPS + hop]).toBe(price);
            least = Math.min(least, price);
          }
        }
        expect(lattice.least).toBe(least === CLOSED ? 1 : least);
      }),
      { numRuns: 60 },
    );
  });

  it("is a diagonal one where the neighbours to all four sides are too steep to go to", () => {
    // A plane that rises 1 in 2 to the east and to the north, 27 degrees: along its contours it is level.
    const grid = hill({ columns: 6, rows: 6, cellM: 10 }, (east, north) => (east + north) / 2);
    const lattice = latticeOf(footingOf(grid, { ...terms, upDeg: 20, downDeg: 20, acrossDeg: 45 }));
    for (let hop = 0; hop < HOPS; hop += 1) {
      const isNear = Math.abs(EAST[hop]!) + Math.abs(NORTH[hop]!) === 1;
      if (isNear) expect(lattice.price(14, hop)).toBe(CLOSED);
    }
    // The diagonal is 14.142136 m long.
    expect(lattice.least).toBe(14_143);
  });
});
