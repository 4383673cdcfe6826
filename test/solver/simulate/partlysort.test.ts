import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { partlySort } from "../../../src/solver/simulate/partlysort.ts";

describe("partlySort", () => {
  it("puts at every rank what a sorted list has there, and loses nothing", () => {
    const values = fc.array(fc.oneof(fc.integer({ min: -3, max: 3 }), fc.float({ noNaN: true })), {
      minLength: 1,
      maxLength: 60,
    });
    fc.assert(
      fc.property(values, fc.array(fc.nat(59), { maxLength: 6 }), (list, wanted) => {
        const ranks = wanted.filter((rank) => rank < list.length).toSorted((a, b) => a - b);
        const sorted = Float32Array.from(list).sort();
        const partly = Float32Array.from(list);
        partlySort(partly, ranks);
        for (const rank of ranks) expect(partly[rank] === sorted[rank]).toBe(true);
        expect(partly.sort()).toEqual(sorted);
      }),
      { numRuns: 500 },
    );
  });
});
