import { describe, expect, it } from "vitest";
import { labelFeet } from "../../../src/screens/odds/curvelabels.ts";

describe("words beside the points of the curve", () => {
  it("stand above, and under the point where the words of its neighbour are in the way", () => {
    const [first, near, far] = labelFeet([
      { x: 672, y: 230, words: "50 %, 80 %, 90 %" },
      { x: 705, y: 232, words: "95 %" },
      { x: 830, y: 254, words: "99 %" },
    ]);
    expect([first, far]).toEqual([-12, -12]);
    expect(near).toBeGreaterThan(0);
  });

  it("stay above where neither place is free", () => {
    const one = { x: 100, y: 50, words: "90 %" };
    expect(labelFeet([one, one, one])).toEqual([-12, 22, -12]);
  });
});
