import { describe, expect, it } from "vitest";
import { random } from "../../src/kernel/index.ts";

const take = (seed: number, n: number): number[] => {
  const stream = random(seed);
  return Array.from({ length: n }, () => stream.next());
};

describe("seeded random", () => {
  it("gives the same stream for a seed, another for another", () => {
    expect(take(7, 50)).toEqual(take(7, 50));
    expect(take(7, 50)).not.toEqual(take(8, 50));
  });

  it("is uniform: chi-square over 16 bins of 160,000 draws stays under the 0.1 % point", () => {
    const bins = new Array<number>(16).fill(0);
    for (const value of take(11, 160_000)) bins[Math.floor(value * 16)]! += 1;
    const square = bins.reduce((sum, seen) => sum + (seen - 10_000) ** 2 / 10_000, 0);
    // Chi-square, 15 degrees of freedom, upper 0.1 % point: 37.7 (standard table).
    expect(square).toBeLessThan(37.7);
  });

  it("draws whole numbers below the bound only, all of them", () => {
    const stream = random(3);
    const seen = new Set(Array.from({ length: 500 }, () => stream.below(6)));
    expect([...seen].sort()).toEqual([0, 1, 2, 3, 4, 5]);
  });

  it("splits off a stream that does not repeat its parent", () => {
    const parent = random(5);
    const child = parent.split();
    expect(child.next()).not.toBe(parent.next());
    expect(random(5).split().next()).toBe(random(5).split().next());
  });
});
