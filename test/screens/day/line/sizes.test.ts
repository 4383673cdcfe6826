import { describe, expect, it } from "vitest";
import { lineSizes } from "../../../../src/screens/day/line/sizes.ts";
import { marginsPx } from "../../../../src/screens/margins/margins.tsx";
import { fixturePlan } from "../../../editor/fixture.ts";

/** The top row and the readout take so much of a window, and lines between the parts of the day, pixels. */
const ABOUT_PX = 82;
const LINES_PX = 4;

/** The share of a window's height that the lanes of so many people get, with one strip of margins a suit. */
function lanesShare(widthPx: number, heightPx: number, crew: number): number {
  const plan = fixturePlan();
  const people = Array.from({ length: crew }, (_, i) => ({ ...plan.crew[0]!, id: `p${i}` }));
  const box = heightPx - ABOUT_PX;
  const sizes = lineSizes(widthPx, box, crew);
  const others =
    sizes.rulerPx + sizes.stayPx + LINES_PX + marginsPx({ ...plan, crew: people }, "least", sizes);
  return (Math.floor((box - others) / crew) * crew) / heightPx;
}

describe("the lanes", () => {
  it.each([
    [1000, 720],
    [1136, 900],
    [1000, 1080],
  ])("have 60 %% of the height beside a side, in a window %i wide for the line and %i high", (wide, high) => {
    for (const crew of [2, 4]) expect(lanesShare(wide, high, crew)).toBeGreaterThanOrEqual(0.6);
  });
});
