import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { random } from "../../src/kernel/index.ts";
import type { Point } from "../../src/terrain/index.ts";
import { leastBetween } from "../../src/terrain/goals.ts";
import { CLOSED } from "../../src/terrain/lattice.ts";
import { lookFor } from "../../src/terrain/looking.ts";
import { midstOf } from "../../src/terrain/midst.ts";
import { networkOf } from "../../src/terrain/network.ts";
import { seedsAt, spreading } from "../../src/terrain/spread.ts";
import { directCost, trailTo } from "../../src/terrain/trail.ts";
import { hill, terms } from "./hill.ts";

const size = { columns: 41, rows: 37, cellM: 10 };
const effort = { levelW: 300, massKg: 170, gravityMs2: 1.62, speedMs: 0.9 };

describe("trails that are looked for no farther than they may go", () => {
  // On rolling ground ways are mostly straight; on rough ground they go round, much longer, or there are none.
  it.each([
    ["rolling", 2, null],
    ["rough", 7, null],
    ["rough, sparing energy", 7, effort],
  ])(
    "are those of a spread that goes everywhere, and none costs less than the least: %s",
    (_, swingM, spared) => {
      const met = { straight: 0, round: 0, far: 0, none: 0 };
      fc.assert(
        fc.property(fc.integer({ min: 0, max: 1e6 }), (seed) => {
          const source = random(seed);
          const grid = {
            ...hill(size, () => (swingM > 3 && source.next() < 0.1 ? NaN : source.between(0, swingM))),
            key: `looking ${swingM} ${spared !== null} ${seed}`,
          };
          const keepOuts = [
            { type: "disc", eastM: 190, northM: 170, radiusM: source.between(1, 120) } as const,
          ];
          const network = networkOf(grid, {
            ...terms,
            effort: spared,
            upDeg: 30,
            downDeg: 35,
            acrossDeg: 40,
            keepOuts,
          });
          const { lattice, footing } = network;
          const places = Array.from({ length: 7 }, (): Point => ({
            eastM: source.between(0, 400),
            northM: source.between(0, 360),
          }));
          const midst = midstOf(network, places);
          for (const place of places) {
            const everywhere = spreading(lattice, seedsAt(footing, place, false), false).everywhere();
            const expected = places.map((other) => {
              const direct = directCost(footing, place, other);
              const goal = { place: other, ends: seedsAt(footing, other, true), direct, most: CLOSED };
              const least = leastBetween(footing, place, other);
              for (const { at, cost } of goal.ends)
                if (everywhere.cost[at] !== CLOSED)
                  expect(everywhere.cost[at]! + cost).toBeGreaterThanOrEqual(least);
              const trail = trailTo(lattice, everywhere, place, goal);
              if (!trail) met.none += 1;
              else if (direct < CLOSED) met.straight += 1;
              else if (trail.cost * 1000 > 1.3 * least) met.far += 1;
              else met.round += 1;
              return trail;
            });
            expect(lookFor(network, place, places, midst)).toEqual(expected);
          }
        }),
        { numRuns: 25 },
      );
      expect(met.straight).toBeGreaterThan(100);
      if (swingM <= 3) expect(met.round).toBeGreaterThan(100);
      else {
        expect(met.far).toBeGreaterThan(100);
        expect(met.none).toBeGreaterThan(20);
      }
    },
  );
});
