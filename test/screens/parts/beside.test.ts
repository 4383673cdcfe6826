import { describe, expect, it } from "vitest";
import { beside } from "../../../src/screens/parts/from/beside.ts";

const figure = (top: number) => ({ top, bottom: top + 20 });

describe("the box from what a figure comes", () => {
  it("stands below its figure where it has the room", () => {
    expect(beside(figure(100), 300, 900)).toEqual({ top: 124, mostPx: 300 });
  });

  it("stands above it where it has the room only there", () => {
    // 800 - 4 - 300.
    expect(beside(figure(800), 300, 900)).toEqual({ top: 496, mostPx: 300 });
  });

  it("never covers its figure nor leaves the window, however high it is", () => {
    for (let top = 0; top <= 880; top += 20)
      for (const heightPx of [50, 400, 2000]) {
        const box = beside(figure(top), heightPx, 900);
        expect(box.top).toBeGreaterThanOrEqual(8);
        expect(box.top + box.mostPx).toBeLessThanOrEqual(892);
        expect(box.top >= top + 20 || box.top + box.mostPx <= top).toBe(true);
        // The better side of a window of 900 px always has that much.
        expect(box.mostPx).toBeGreaterThanOrEqual(Math.min(heightPx, 400));
      }
  });
});
