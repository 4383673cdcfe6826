import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { MarginTrack } from "../../src/answers/index.ts";
import { instant } from "../../src/kernel/index.ts";
import { leastOf, spareCourse } from "../../src/screens/day/line/names/spare.ts";
import { lowest, spareOf } from "../../src/screens/margins/spare.ts";

/** A stock of 100 of which 10 are reserve, left at moments an hour apart. */
function track(left: readonly number[]): MarginTrack {
  return {
    eva: "eva-1",
    crew: "ev1",
    consumable: "battery",
    stock: 100,
    reserve: 10,
    margin: (left.at(-1)! - 10) / 100,
    points: left.map((value, i) => ({ atS: instant(3600 * i), value })),
  };
}

describe("what a suit has to spare", () => {
  it("begins and ends at the margin, whatever is used between", () => {
    const courses = fc.array(fc.integer({ min: 0, max: 100 }), { minLength: 2, maxLength: 9 });
    fc.assert(
      fc.property(courses, (left) => {
        const own = track(left.toSorted((a, b) => b - a));
        const { points } = spareOf(own);
        expect(points[0]!.value).toBeCloseTo(own.margin, 9);
        expect(points.at(-1)!.value).toBeCloseTo(own.margin, 9);
      }),
    );
  });

  it("dips where a stretch is dearer than even use, and is level where use is even", () => {
    expect(spareOf(track([100, 80, 60, 40])).points.map(({ value }) => value)).toEqual([0.3, 0.3, 0.3, 0.3]);
    // From 100 to 40 in three hours is 20 an hour: 50 after the first are 30 less than even.
    const dear = spareOf(track([100, 50, 45, 40]));
    expect(dear.points.map(({ value }) => Math.round(value * 100))).toEqual([30, 0, 15, 30]);
    expect(lowest(dear)).toEqual({ atS: 3600, value: dear.points[1]!.value });
  });

  it("held against the day before leaves it where the move costs, and still ends at its own margin", () => {
    const before = track([100, 80, 60, 40]);
    const after = track([100, 80, 50, 30]);
    const { points } = spareOf(after, before);
    // 30 left less 10 of reserve are 20 % at the hatch; the hour that costs 10 more is the second one.
    expect(points.map(({ value }) => Math.round(value * 100))).toEqual([30, 30, 20, 20]);
  });

  it("of a walk home is the least of the allowed less the needed, in the middle of where it is that", () => {
    const points = [0, 600, 600, 600, 0].map((value, i) => ({ atS: instant(1000 * i), value }));
    const reach = {
      eva: "eva-1",
      crew: "ev1",
      points,
      slopesRad: points.map(() => 0),
      allowed: [0, 4000].map((atS) => ({ atS: instant(atS), value: 1500 })),
    };
    expect(leastOf(spareCourse(reach))).toEqual({ atS: 2000, value: 900 });
    expect(leastOf({ points: [] })).toBeNull();
  });
});
