import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { contains, instant, type Interval, intersect, normalise, overlaps } from "../../src/kernel/index.ts";

const span = (startS: number, endS: number): Interval => ({ startS: instant(startS), endS: instant(endS) });
const anySpans = fc.array(
  fc
    .tuple(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 0, max: 12 }))
    .map(([from, length]) => span(from, from + length)),
  { maxLength: 8 },
);
const covers = (list: readonly Interval[], at: number): boolean =>
  list.some((one) => one.startS <= at && at < one.endS);
const instants = Array.from({ length: 60 }, (_, i) => i);

describe("half-open intervals", () => {
  it("do not overlap where they only touch", () => {
    expect(overlaps(span(0, 10), span(10, 20))).toBe(false);
    expect(overlaps(span(0, 11), span(10, 20))).toBe(true);
  });

  it("contain themselves but nothing one second longer", () => {
    expect(contains(span(5, 9), span(5, 9))).toBe(true);
    expect(contains(span(5, 9), span(5, 10))).toBe(false);
  });

  it("normalise covers the same instants with ascending stretches that do not touch", () => {
    fc.assert(
      fc.property(anySpans, (list) => {
        const tidy = normalise(list);
        for (const at of instants) expect(covers(tidy, at)).toBe(covers(list, at));
        for (let i = 1; i < tidy.length; i += 1) expect(tidy[i]!.startS).toBeGreaterThan(tidy[i - 1]!.endS);
      }),
    );
  });

  it("intersect covers what both cover", () => {
    fc.assert(
      fc.property(anySpans, anySpans, (a, b) => {
        const both = intersect(normalise(a), normalise(b));
        for (const at of instants) expect(covers(both, at)).toBe(covers(a, at) && covers(b, at));
      }),
    );
  });
});
