import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { timeScale } from "../../src/editor/index.ts";
import { instant } from "../../src/kernel/index.ts";
import { besideLine, mostSaid, type Said } from "../../src/screens/margins/said.ts";

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

describe("the most of a strip and its limit", () => {
  const wide = (text: string): number => 6 * text.length;

  it("never lie on each other, on whichever side of its point the most is said", () => {
    const drawn = fc.record({
      widthPx: fc.integer({ min: 300, max: 1900 }),
      values: fc.array(fc.integer({ min: 0, max: 900 }), { minLength: 2, maxLength: 12 }),
      beginS: fc.integer({ min: 0, max: 3000 }),
    });
    let both = 0;
    fc.assert(
      fc.property(drawn, ({ widthPx, values, beginS }) => {
        const scale = timeScale({ startS: 0, endS: 7200 }, widthPx);
        const points = values.map((value, k) => ({ atS: instant(beginS + k * 380), value }));
        const most = mostSaid([{ points }], { heightPx: 40, limit: 500 }, scale, {
          worst: wide,
          limit: wide,
        });
        if (!most?.words || !most.limit) return;
        both += 1;
        expect(most.limit.to <= most.words.from || most.words.to <= most.limit.from).toBe(true);
      }),
      { numRuns: 500 },
    );
    expect(both).toBeGreaterThan(50);
  });
});
