import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { besideLine, type Said } from "../../src/screens/margins/said.ts";

const WINDOW_PX = 800;

function said(from: number, to: number): Said {
  return { text: "most 485 m at 2:23", from, to };
}

describe("the value at the pointer", () => {
  it("stands at the right of the line, and at its left where the window ends", () => {
    expect(besideLine(300, 40, [], WINDOW_PX)).toBe(304);
    expect(besideLine(790, 40, [], WINDOW_PX)).toBe(746);
  });

  it("goes to the side on which nothing is said, and beyond the words that the line runs through", () => {
    expect(besideLine(300, 40, [said(310, 420)], WINDOW_PX)).toBe(256);
    expect(besideLine(300, 40, [said(200, 290)], WINDOW_PX)).toBe(304);
    expect(besideLine(320, 40, [said(300, 420)], WINDOW_PX)).toBe(256);
    expect(besideLine(400, 40, [said(300, 420)], WINDOW_PX)).toBe(424);
  });

  it("never lies on a part of what is said, which would then read as another figure", () => {
    const drawn = fc.record({
      x: fc.integer({ min: 0, max: WINDOW_PX }),
      wide: fc.integer({ min: 20, max: 60 }),
      words: fc.array(fc.tuple(fc.integer({ min: 0, max: 700 }), fc.integer({ min: 40, max: 130 })), {
        maxLength: 2,
      }),
    });
    fc.assert(
      fc.property(drawn, ({ x, wide, words }) => {
        const all = words.map(([from, px]) => said(from, Math.min(WINDOW_PX, from + px)));
        const left = besideLine(x, wide, all, WINDOW_PX);
        for (const { from, to } of all) expect(left >= to || left + wide <= from).toBe(true);
        expect(left).toBeGreaterThanOrEqual(0);
        expect(left + wide).toBeLessThanOrEqual(WINDOW_PX);
      }),
    );
  });
});
