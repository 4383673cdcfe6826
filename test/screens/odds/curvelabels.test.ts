import { describe, expect, it } from "vitest";
import fc from "fast-check";
import { boxOf, type InTheWay, type LabelledPoint, layWords } from "../../../src/screens/odds/curvelabels.ts";

/** A picture with the wish's line at a place and its words at the head of it. */
const picture = (wishX: number): InTheWay => ({
  left: 62,
  right: 880,
  wishX,
  wish: { left: wishX - 70, right: wishX - 5, top: 26, bottom: 40 },
});

/** The boxes in which the words of points come to stand. */
const boxes = (points: readonly LabelledPoint[], way: InTheWay) =>
  layWords(points, way).map(({ dx, dy }, k) => boxOf(points[k]!.words, points[k]!.x + dx, points[k]!.y + dy));

describe("words beside the points of the curve", () => {
  it("stand above, and under the point where the words of its neighbour are in the way", () => {
    const [first, near, far] = layWords(
      [
        { x: 600, y: 230, words: "for 50 %, 80 %, 90 %" },
        { x: 633, y: 232, words: "for 95 %" },
        { x: 780, y: 254, words: "for 99 %" },
      ],
      picture(200),
    );
    expect([first, far]).toEqual([
      { dx: 0, dy: -12 },
      { dx: 0, dy: -12 },
    ]);
    expect(near!.dy).toBeGreaterThan(0);
  });

  it("stand aside of the wish's line", () => {
    const way = picture(500);
    for (const x of [470, 498, 500, 503, 540]) {
      const [box] = boxes([{ x, y: 150, words: "for 50 %, 80 %, 90 %" }], way);
      expect(box!.right < 500 || box!.left > 500).toBe(true);
      // Still at their point.
      expect(box!.left - x).toBeLessThan(20);
      expect(x - box!.right).toBeLessThan(20);
    }
  });

  it("stand inside the picture, wherever the point is", () => {
    const point = fc.record({
      x: fc.integer({ min: 62, max: 880 }),
      y: fc.integer({ min: 40, max: 240 }),
      words: fc.constantFrom("for 90 %", "for 50 %, 80 %, 90 %", "the day as it stands"),
    });
    fc.assert(
      fc.property(fc.array(point, { maxLength: 6 }), fc.integer({ min: 140, max: 880 }), (points, wishX) => {
        for (const box of boxes(points, picture(wishX))) {
          expect(box.left).toBeGreaterThanOrEqual(62 - 1e-6);
          expect(box.right).toBeLessThanOrEqual(880 + 1e-6);
        }
      }),
    );
  });

  it("stand above where no place is free", () => {
    const one = { x: 300, y: 50, words: "for 90 %" };
    const places = layWords(Array<LabelledPoint>(12).fill(one), picture(700));
    expect(places.at(-1)).toEqual({ dx: 0, dy: -12 });
  });
});
