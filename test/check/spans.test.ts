import { describe, expect, test } from "vitest";
import { nearestOf, outsideOf, slipS } from "../../src/check/spans.ts";
import { instant, type Interval } from "../../src/kernel/index.ts";

const span = (startS: number, endS: number): Interval => ({ startS: instant(startS), endS: instant(endS) });

describe("a span among windows", () => {
  test("sticks out at both ends together", () => {
    expect(outsideOf(span(10, 20), span(10, 20))).toBe(0);
    expect(outsideOf(span(10, 20), span(7, 24))).toBe(3 + 4);
    expect(outsideOf(span(10, 20), span(30, 40))).toBe(20);
  });

  test("has the nearest one, the earlier of two equally near, in whatever order they come", () => {
    const [first, second, third] = [span(0, 10), span(30, 40), span(60, 70)];
    // 18 to 26 sticks out of the first by 16 and of the second by 12.
    expect(nearestOf([first, second, third], span(18, 26))).toBe(second);
    expect(nearestOf([third, second, first], span(18, 26))).toBe(second);
    // 16 to 24: by 14 out of both.
    expect(nearestOf([second, first], span(16, 24))).toBe(first);
    expect(nearestOf([first, second], span(16, 24))).toBe(first);
    expect(nearestOf([], span(0, 1))).toBeUndefined();
  });

  test("may slip as far as the window that gives most", () => {
    expect(slipS([span(0, 30), span(5, 50), span(20, 90)], span(10, 20))).toBe(30);
    expect(slipS([span(0, 20)], span(10, 20))).toBe(0);
    expect(slipS([span(0, 19), span(11, 90)], span(10, 20))).toBe(-1);
  });
});
