import { describe, expect, it } from "vitest";
import { boundWords } from "../../../src/screens/findings/boundwords.ts";

describe("what a proved bound says", () => {
  it.each([
    [100, 100, "proved best"],
    // A bound below what is reached says no more than that nothing better is possible.
    [100, 99, "proved best"],
    [1000, 1020, "at most 2 % more is possible"],
    // 1/1743 is 0.057 %, which is never said as 0.
    [1743, 1744, "at most 0.1 % more is possible"],
    // 130/1743 is 7.458 %: up, not to the nearest.
    [1743, 1873, "at most 7.5 % more is possible"],
    [3, 4, "at most 33.4 % more is possible"],
    [0, 5, "at most 5 more is possible"],
  ])("of worth %i with bound %i: %s", (worth, bound, words) => {
    expect(boundWords(worth, bound)).toBe(words);
  });

  it("says nothing where none is known", () => {
    expect(boundWords(100, null)).toBeNull();
  });
});
