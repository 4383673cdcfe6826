import { describe, expect, it } from "vitest";
import { random } from "../../../src/kernel/index.ts";
import { compile } from "../../../src/solver/problem/compile.ts";
import { groundOf } from "../../../src/solver/tours/ground.ts";
import { Pool } from "../../../src/solver/tours/pool.ts";
import { Tours } from "../../../src/solver/tours/tours.ts";
import { tourDay } from "./tourDay.ts";

describe("the pool of routes", () => {
  it("finds the set of routes that is worth most, as trying all sets does, and none where none is worth more", () => {
    let mixed = 0;
    for (let seed = 1; seed <= 20; seed += 1) {
      const problem = compile(tourDay(seed, { tasks: 14, crew: 3 }));
      const ground = groundOf(problem);
      const pool = new Pool(ground, problem.worth);
      const stream = random(seed);
      const routes: number[][] = [];
      for (let k = 0; k < 25; k += 1) {
        const activities = [0, 1, 2, 3].map(() => stream.below(14));
        routes.push([...new Set(activities)]);
        const tours = new Tours(ground);
        tours.lay(0, routes.at(-1)!);
        pool.note(tours, Uint8Array.of(1, 0, 0), 1);
      }
      const worthOf = (list: readonly number[]): number =>
        list.reduce((sum, a) => sum + problem.worth[a]!, 0);
      let most = 0;
      for (const x of [[], ...routes])
        for (const y of [[], ...routes])
          for (const z of [[], ...routes]) {
            const all = [...x, ...y, ...z];
            if (new Set(all).size === all.length) most = Math.max(most, worthOf(all));
          }
      expect(pool.recombine(most)).toBeNull();
      const mix = pool.recombine(most - 1);
      const found = [...mix!.values()].flatMap((one) => [...one]);
      expect(new Set(found).size).toBe(found.length);
      expect(worthOf(found)).toBe(most);
      if ([...mix!.values()].filter((one) => one.length > 0).length > 1) mixed += 1;
    }
    expect(mixed).toBeGreaterThan(15);
  });
});
