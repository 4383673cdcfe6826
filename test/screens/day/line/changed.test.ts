import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Course, timeScale, valueAt } from "../../../../src/editor/index.ts";
import {
  around,
  columnsOf,
  courseChange,
  differing,
  within,
} from "../../../../src/screens/parts/canvas/changed.ts";

const same = (a: number, b: number): boolean => a === b;

describe("differing", () => {
  it("tells what only one of two lists has, wherever it stands", () => {
    expect(differing([1, 2, 3], [1, 2, 3], same)).toEqual([]);
    expect(differing([1, 2, 3, 4], [1, 9, 3, 4], same)).toEqual([2, 9]);
    expect(differing([1, 2, 3, 4, 5], [7, 1, 2, 3, 4], same)).toEqual([5, 7]);
    expect(differing([], [4], same)).toEqual([4]);
  });

  it("has nothing that both lists have", () => {
    const lists = fc.uniqueArray(fc.integer({ min: 0, max: 12 }));
    fc.assert(
      fc.property(lists, lists, (a, b) => {
        const only = [...a.filter((one) => !b.includes(one)), ...b.filter((one) => !a.includes(one))];
        expect(differing(a, b, same).toSorted()).toEqual(only.toSorted());
      }),
    );
  });
});

const courses = fc
  .array(fc.record({ gapS: fc.integer({ min: 1, max: 5 }), value: fc.integer({ min: 0, max: 3 }) }))
  .map((steps): Course["points"] => {
    let atS = 0;
    return steps.map(({ gapS, value }) => ({ atS: (atS += gapS), value }));
  });

describe("courseChange", () => {
  it("reaches from the last point before a change to the first after it", () => {
    const at = (values: readonly number[]) => values.map((value, i) => ({ atS: 10 * i, value }));
    expect(courseChange(at([5, 4, 3, 2]), at([5, 4, 3, 2]))).toBeNull();
    expect(courseChange(at([5, 4, 3, 2, 1]), at([5, 4, 9, 2, 1]))).toEqual({ startS: 10, endS: 30 });
    expect(courseChange(at([5, 4]), at([5, 4, 3]))).toEqual({ startS: 10, endS: 20 });
    expect(courseChange([], at([5, 4]))).toEqual({ startS: 0, endS: 10 });
  });

  it("holds every instant at which two courses have another value", () => {
    fc.assert(
      fc.property(courses, courses, fc.integer({ min: 0, max: 60 }), (a, b, atS) => {
        const change = courseChange(a, b);
        const outside = change === null || atS < change.startS || atS > change.endS;
        if (outside) expect(valueAt({ points: a }, atS)).toBe(valueAt({ points: b }, atS));
      }),
    );
  });
});

describe("columns", () => {
  const scale = timeScale({ startS: 1000, endS: 2000 }, 500);

  it("hold the stretch and a pad, inside the canvas", () => {
    expect(columnsOf({ startS: 1100, endS: 1200 }, scale, 16)).toEqual({ fromPx: 34, toPx: 116 });
    expect(columnsOf({ startS: 0, endS: 1010 }, scale, 16)).toEqual({ fromPx: 0, toPx: 21 });
    expect(columnsOf({ startS: 0, endS: 900 }, scale, 16)).toBeNull();
  });

  it("are a window on the same scale", () => {
    const part = within(scale, { fromPx: 100, toPx: 200 }, 10);
    expect(part.window).toEqual({ startS: 1180, endS: 1420 });
    expect(part.x(1500)).toBe(scale.x(1500));
    expect(within(scale, null, 10)).toBe(scale);
  });

  it("are asked for the stretch around all that changed", () => {
    expect(around([])).toBeNull();
    expect(
      around([
        { startS: 5, endS: 6 },
        { startS: 2, endS: 3 },
      ]),
    ).toEqual({ startS: 2, endS: 6 });
  });
});
