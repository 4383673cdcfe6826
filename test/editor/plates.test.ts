import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type LabelWish, layPlates } from "../../src/editor/map/index.ts";
import { cross, type Leader } from "../../src/editor/map/plates.ts";

const wish = (key: string, x: number, y: number, rank = 1, widthPx = 90): LabelWish => ({
  ...{ key, x, y, rank, widthPx },
  radiusPx: 7,
  heightPx: 22,
});
const leadersOf = (plates: ReturnType<typeof layPlates>): readonly Leader[] =>
  plates.plates.flatMap(({ leader }) => (leader ? [leader] : []));

describe("plates of places", () => {
  it("stand beside what is free, without a leader", () => {
    const { plates, leftOut } = layPlates([wish("a", 100, 100), wish("b", 400, 300)], 600, 500);
    expect(leftOut).toEqual([]);
    expect(plates.map(({ leader }) => leader)).toEqual([null, null]);
    // Right of the sign: 100 + radius 7 + gap 4, its middle at the sign's height.
    expect(plates.find(({ key }) => key === "a")).toEqual({ key: "a", left: 111, top: 89, leader: null });
  });

  it.each([
    [4, 1],
    [7, 2],
  ])(
    "of a crowd of %i stand in columns, %i of them, in an order in which no leader crosses another",
    (size, columns) => {
      // Each within 44 px of a neighbour, and one far off.
      const crowd = Array.from({ length: size }, (_, k) =>
        wish(`c${k}`, 300 + 9 * ((k * 3) % 7), 240 + 8 * k),
      );
      const { plates, leftOut } = layPlates([...crowd, wish("far", 80, 60)], 600, 600);
      expect(leftOut).toEqual([]);
      const apart = plates.filter(({ leader }) => leader !== null);
      expect(apart.map(({ key }) => key).sort()).toEqual(crowd.map(({ key }) => key));
      const leaders = apart.map(({ leader }) => leader as Leader);
      expect(new Set(leaders.map(([, , x]) => x)).size).toBe(columns);
      for (const [i, a] of leaders.entries())
        for (const b of leaders.slice(i + 1)) expect(cross(a, b)).toBe(false);
    },
  );

  it("lie neither on each other nor outside, and no leaders cross, wherever the places are", () => {
    const spot = fc.record({ x: fc.integer({ min: 0, max: 569 }), y: fc.integer({ min: 0, max: 700 }) });
    fc.assert(
      fc.property(fc.array(spot, { maxLength: 24 }), (spots) => {
        const wishes = spots.map(({ x, y }, k) => wish(`p${k}`, x, y, k, 60 + (k % 5) * 20));
        const laid = layPlates(wishes, 569, 700);
        const boxes = laid.plates.map(({ key, left, top }) => {
          const { widthPx, heightPx } = wishes.find((one) => one.key === key) as LabelWish;
          return { left, top, right: left + widthPx, bottom: top + heightPx };
        });
        for (const [i, a] of boxes.entries()) {
          expect(a.left >= 0 && a.top >= 0 && a.right <= 569 && a.bottom <= 700).toBe(true);
          for (const b of boxes.slice(i + 1))
            expect(a.left >= b.right || b.left >= a.right || a.top >= b.bottom || b.top >= a.bottom).toBe(
              true,
            );
        }
        const leaders = leadersOf(laid);
        for (const [i, a] of leaders.entries())
          for (const b of leaders.slice(i + 1)) expect(cross(a, b)).toBe(false);
        // Nobody is lost without a word: each is laid, or named as left out.
        expect(laid.plates.length + laid.leftOut.length).toBe(wishes.length);
      }),
      { seed: 4222, numRuns: 60 },
    );
  });

  it("says what found no room, the least first", () => {
    // Fifteen at one spot in a picture that has rows for few: 120 px less edges are four rows of 25.
    const crowd = Array.from({ length: 15 }, (_, k) => wish(`c${k}`, 60, 60, k));
    const { plates, leftOut } = layPlates(crowd, 260, 120);
    expect(plates.length).toBeGreaterThan(0);
    expect(leftOut.length).toBe(15 - plates.length);
    const ranks = (keys: readonly string[]): readonly number[] => keys.map((key) => Number(key.slice(1)));
    expect(Math.max(...ranks(leftOut))).toBeLessThan(Math.max(...ranks(plates.map(({ key }) => key))));
  });
});
