import { describe, expect, it } from "vitest";
import { measured, slownessOf } from "../../src/engine/metronome.ts";

describe("the pace of a machine", () => {
  it("is how much longer the whole took than its quick pieces: 20 of 1 ms in 200 ms are ten times slower", () => {
    const quick = Array.from({ length: 15 }, () => 1);
    expect(slownessOf([...quick, 37, 37, 37, 37, 37], 200)).toBe(10);
  });

  it("is never better than undisturbed, nor made of nothing", () => {
    expect(slownessOf([1, 1, 1], 2)).toBe(1);
    expect(slownessOf([0, 0, 0], 50)).toBe(1);
    expect(slownessOf([], 0)).toBe(1);
  });

  it("is measured by a clock: one that runs evenly gives 1, one that jumps now and then more", () => {
    let atMs = 0;
    const even = (): number => (atMs += 0.5);
    // 41 readings more than the first, of which 20 lie within pieces: 20.5 ms against 20 pieces of 0.5 ms.
    expect(measured(even)).toBeCloseTo(20.5 / 10, 9);
    let readings = 0;
    const jumping = (): number => (atMs += (readings += 1) % 10 === 0 ? 30 : 0.5);
    expect(measured(jumping)).toBeGreaterThan(10);
  });
});
