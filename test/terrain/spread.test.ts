import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { random } from "../../src/kernel/index.ts";
import { type Point } from "../../src/terrain/index.ts";
import { networkOf } from "../../src/terrain/network.ts";
import { footingOf } from "../../src/terrain/footing.ts";
import { CLOSED, latticeOf } from "../../src/terrain/lattice.ts";
import { midstOf } from "../../src/terrain/midst.ts";
import type { Goal } from "../../src/terrain/goals.ts";
import { NO_HOP, seedsAt, type Spread, spreading, spreadTo } from "../../src/terrain/spread.ts";
import { hill, terms } from "./hill.ts";

const size = { columns: 33, rows: 29, cellM: 10 };

/** Costs and chains of hops from the ends of a goal that nothing is cheaper than. */
function waysTo(field: Spread, offset: Int32Array, { ends, most }: Goal): string[] {
  const least = ends.reduce((low, { at, cost }) => {
    const known = field.cost[at]!;
    return known === CLOSED ? low : Math.min(low, known + cost);
  }, CLOSED);
  if (least > most || least === CLOSED) return [];
  return ends
    .filter(({ at, cost }) => field.cost[at] !== CLOSED && field.cost[at]! + cost === least)
    .map(({ at: end, cost }) => {
      const chain = [`${end} ${field.cost[end]! + cost}`];
      for (let at = end; field.hop[at] !== NO_HOP;) {
        at -= offset[field.hop[at]!]!;
        chain.push(`${at} ${field.cost[at]}`);
      }
      return chain.join(", ");
    });
}

const reached = (field: Spread): number => field.cost.filter((one) => one !== CLOSED).length;

describe("a spread to goals", () => {
  // On level ground most points are come to by many ways of one cost; on rough ground some goals cannot be come to.
  it.each([
    ["level", 0],
    ["rolling", 3],
    ["rough", 9],
  ])(
    "comes to each by the very hops of one that goes everywhere, whatever is known of the cost: %s",
    (_, swingM) => {
      let found = 0;
      let bounded = 0;
      fc.assert(
        fc.property(fc.integer({ min: 0, max: 1e6 }), (seed) => {
          const source = random(seed);
          const grid = {
            ...hill(size, () => (swingM > 3 && source.next() < 0.05 ? NaN : source.between(0, swingM))),
            key: `spread ${swingM} ${seed}`,
          };
          const keepOuts = [
            { type: "disc", eastM: 150, northM: 140, radiusM: source.between(1, 60) } as const,
          ];
          const network = networkOf(grid, { ...terms, upDeg: 30, downDeg: 35, acrossDeg: 40, keepOuts });
          const { lattice, footing } = network;
          const places = Array.from({ length: 7 }, (): Point => ({
            eastM: source.between(0, 320),
            northM: source.between(0, 280),
          }));
          const seeds = seedsAt(footing, places[0]!, false);
          const midst = midstOf(network, places);
          const goals = places.slice(1).map((place, k): Goal => {
            const ends = seedsAt(footing, place, true);
            return { place, ends, direct: CLOSED, most: k % 3 === 0 ? CLOSED : midst.most(seeds, ends) };
          });
          const everywhere = spreading(lattice, seeds, false).everywhere();
          const some = spreadTo(lattice, seeds, goals);
          for (const goal of goals) {
            const ways = waysTo(everywhere, lattice.offset, goal);
            expect(waysTo(some, lattice.offset, goal)).toEqual(ways);
            found += ways.length;
            bounded += goal.most < CLOSED ? 1 : 0;
          }
        }),
        { numRuns: 40 },
      );
      expect(found).toBeGreaterThan(100);
      expect(bounded).toBeGreaterThan(50);
    },
  );

  it("leaves most of the ground alone on the way to what is near", () => {
    const lattice = latticeOf(
      footingOf(
        hill({ columns: 101, rows: 101, cellM: 10 }, () => 0),
        terms,
      ),
    );
    const seeds = seedsAt(lattice.footing, { eastM: 505, northM: 505 }, false);
    const place = { eastM: 605, northM: 505 };
    const ends = seedsAt(lattice.footing, place, true);
    const goal = { place, ends, direct: CLOSED, most: CLOSED };
    expect(reached(spreadTo(lattice, seeds, [goal]))).toBeLessThan(1000);
    expect(reached(spreadTo(lattice, seeds, [{ ...goal, most: 110_000 }]))).toBeLessThan(300);
  });
});

describe("a spread that goes on as it is asked", () => {
  it.each([
    ["forward", false],
    ["backward", true],
  ])(
    "knows of each point what one knows that goes everywhere, and the hops on the way: %s",
    (_, backward) => {
      fc.assert(
        fc.property(fc.integer({ min: 0, max: 1e6 }), (seed) => {
          const source = random(seed);
          const grid = hill(size, () => (source.next() < 0.08 ? NaN : source.between(0, 9)));
          const keepOuts = [
            { type: "disc", eastM: 150, northM: 140, radiusM: source.between(1, 60) } as const,
          ];
          const footing = footingOf(grid, { ...terms, upDeg: 30, downDeg: 35, acrossDeg: 40, keepOuts });
          const seeds = seedsAt(footing, { eastM: 31, northM: 42 }, backward);
          const whole = spreading(latticeOf(footing), seeds, backward).everywhere();
          const lattice = latticeOf(footing);
          const asked = spreading(lattice, seeds, backward);
          for (let n = 0; n < 40; n += 1) {
            const point = Math.floor(source.next() * grid.heightM.length);
            expect(asked.costTo(point)).toBe(whole.cost[point]);
            for (let at = point; whole.cost[at] !== CLOSED;) {
              expect([asked.cost[at], asked.hop[at]]).toEqual([whole.cost[at], whole.hop[at]]);
              if (whole.hop[at] === NO_HOP) break;
              at += (backward ? 1 : -1) * lattice.offset[whole.hop[at]!]!;
            }
          }
          expect(asked.everywhere().cost).toEqual(whole.cost);
          expect(asked.hop).toEqual(whole.hop);
        }),
        { numRuns: 30 },
      );
    },
  );

  it("works out what hops cost about the ways that are asked for, and nowhere else; a point that none leads to at once", () => {
    const keepOuts = [{ type: "disc", eastM: 505, northM: 605, radiusM: 40 } as const];
    const flat = hill({ columns: 101, rows: 101, cellM: 10 }, () => 0);
    const lattice = latticeOf(footingOf(flat, { ...terms, keepOuts }));
    const field = spreading(lattice, seedsAt(lattice.footing, { eastM: 505, northM: 505 }, true), true);
    const worked = (): number => lattice.worked.filter((one) => one === 1).length;
    expect(field.costTo(50 * 101 + 60)).toBeLessThan(CLOSED);
    expect(worked()).toBeLessThan(1000);
    expect(field.costTo(60 * 101 + 50)).toBe(CLOSED);
    expect(worked()).toBeLessThan(1000);
  });
});

describe("a way by the midst", () => {
  it("costs no less than the least, and may be none", () => {
    const grid = { ...hill(size, (east) => (east > 200 ? NaN : 0)), key: "spread midst" };
    const network = networkOf(grid, terms);
    const [a, b, beyond] = [
      { eastM: 31, northM: 40 },
      { eastM: 150, northM: 222 },
      { eastM: 290, northM: 100 },
    ];
    const midst = midstOf(network, [a, b]);
    const seeds = seedsAt(network.footing, a, false);
    const ends = seedsAt(network.footing, b, true);
    const field = spreading(network.lattice, seeds, false).everywhere();
    const least = ends.reduce((low, { at, cost }) => Math.min(low, field.cost[at]! + cost), CLOSED);
    expect(midst.most(seeds, ends)).toBeGreaterThanOrEqual(least);
    expect(midst.most(seeds, ends)).toBeLessThan(2 * least);
    expect(midst.most(seeds, seedsAt(network.footing, beyond, true))).toBe(0);
    expect(midstOf(network, [beyond]).most(seeds, ends)).toBe(CLOSED);
  });
});
