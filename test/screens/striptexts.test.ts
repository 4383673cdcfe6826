import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { timeScale } from "../../src/editor/index.ts";
import { instant } from "../../src/kernel/index.ts";
import {
  besideLine,
  leastTexts,
  mostTexts,
  type StripText,
  textsOf,
} from "../../src/screens/margins/striptexts.ts";

const WINDOW_PX = 800;

function said(from: number, to: number): StripText {
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
        const most = mostTexts([{ points }], { heightPx: 40, limit: 500 }, scale, {
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

describe("the least of several outings in one strip", () => {
  it("is told of each where there is room, and no words lie on others", () => {
    const wide = (text: string): number => 6 * text.length;
    const outing = fc.record({
      lastsS: fc.integer({ min: 600, max: 20_000 }),
      pauseS: fc.integer({ min: 0, max: 20_000 }),
      dip: fc.integer({ min: 0, max: 10 }),
      margin: fc.integer({ min: -20, max: 40 }),
    });
    let several = 0;
    fc.assert(
      fc.property(
        fc.array(outing, { minLength: 2, maxLength: 5 }),
        fc.integer({ min: 400, max: 1900 }),
        (outings, widthPx) => {
          const scale = timeScale({ startS: 0, endS: 80_000 }, widthPx);
          let atS = 0;
          let taken: readonly StripText[] = [];
          for (const { lastsS, pauseS, dip, margin } of outings) {
            const [first, last] = [atS + pauseS, atS + pauseS + lastsS];
            const middle = { atS: instant(Math.round((first + last) / 2)), value: (margin - dip) / 100 };
            const ends = [first, last].map((one) => ({ atS: instant(one), value: margin / 100 }));
            const said = leastTexts(
              { points: [ends[0]!, middle, ends[1]!] },
              margin / 100,
              scale,
              wide,
              taken,
            );
            const words = said ? textsOf(said) : [];
            for (const one of words)
              for (const other of [...taken, ...words.filter((mate) => mate !== one)])
                expect(one.to <= other.from || other.to <= one.from).toBe(true);
            taken = [...taken, ...words];
            atS = last;
          }
          if (taken.length > 2) several += 1;
        },
      ),
      { numRuns: 300 },
    );
    expect(several).toBeGreaterThan(50);
  });
});
