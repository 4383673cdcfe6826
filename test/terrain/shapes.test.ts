import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { distance, inside, type Point } from "../../src/terrain/index.ts";
import { clearTriangle, crosses, distanceToLine, type Shape } from "../../src/terrain/shapes.ts";
import { evenly } from "../physics/evenly.ts";

const metres = evenly(-500, 500);
const points = fc.record<Point>({ eastM: metres, northM: metres });
const at = (eastM: number, northM: number): Point => ({ eastM, northM });

/** A square of 100 m with its low corner at 100 east, 100 north. */
const square: Shape = {
  type: "polygon",
  points: [at(100, 100), at(200, 100), at(200, 200), at(100, 200)],
};
/** An L: the square without its upper right quarter. */
const corner: Shape = {
  type: "polygon",
  points: [at(0, 0), at(100, 0), at(100, 50), at(50, 50), at(50, 100), at(0, 100)],
};

describe("shapes against closed forms", () => {
  it("has 3-4-5 triangles", () => {
    expect(distance(at(1, 2), at(4, 6))).toBe(5);
    expect(distanceToLine(at(0, 5), at(-3, 0), at(3, 0))).toBe(5);
    // Beyond the end of the line piece the end counts: 3 across, 4 up.
    expect(distanceToLine(at(6, 4), at(-3, 0), at(3, 0))).toBe(5);
    expect(distanceToLine(at(3, 4), at(0, 0), at(0, 0))).toBe(5);
  });

  it("knows a square by its bounds, rim outside", () => {
    fc.assert(
      fc.property(points, (p) => {
        const within = p.eastM > 100 && p.eastM < 200 && p.northM > 100 && p.northM < 200;
        expect(inside(square, p)).toBe(within);
      }),
    );
    for (const rim of [at(100, 150), at(200, 150), at(150, 100), at(150, 200), at(100, 100), at(200, 200)]) {
      expect(inside(square, rim)).toBe(false);
    }
  });

  it("knows an L: its notch is outside", () => {
    expect(inside(corner, at(75, 75))).toBe(false);
    expect(inside(corner, at(25, 75))).toBe(true);
    expect(inside(corner, at(75, 25))).toBe(true);
  });

  it("crosses a disc when the line comes nearer than the radius: sqrt(r^2 - d^2) is real", () => {
    const disc: Shape = { type: "disc", eastM: 0, northM: 0, radiusM: 10 };
    expect(crosses(disc, at(-100, 9.999), at(100, 9.999))).toBe(true);
    expect(crosses(disc, at(-100, 10), at(100, 10))).toBe(false);
    expect(crosses(disc, at(11, 0), at(100, 0))).toBe(false);
    expect(crosses(disc, at(1, 1), at(2, 2))).toBe(true);
  });

  it("crosses a square exactly when a slab test says so", () => {
    fc.assert(
      fc.property(points, points, (a, b) => {
        // Liang and Barsky's clipping of a line to a rectangle leaves a piece of positive length.
        let low = 0;
        let high = 1;
        for (const axis of ["eastM", "northM"] as const) {
          const step = b[axis] - a[axis];
          const first = (100 - a[axis]) / step;
          const second = (200 - a[axis]) / step;
          if (step === 0) {
            if (a[axis] <= 100 || a[axis] >= 200) high = -1;
          } else {
            low = Math.max(low, Math.min(first, second));
            high = Math.min(high, Math.max(first, second));
          }
        }
        fc.pre(Math.abs(high - low) > 1e-9);
        expect(crosses(square, a, b)).toBe(high > low);
        expect(crosses(square, b, a)).toBe(high > low);
      }),
      { numRuns: 2000 },
    );
  });

  it("sees a line that goes in and out through two corners, and lets one run along an edge", () => {
    expect(crosses(square, at(0, 0), at(300, 300))).toBe(true);
    expect(crosses(square, at(100, 100), at(200, 200))).toBe(true);
    expect(crosses(square, at(0, 100), at(300, 100))).toBe(false);
    expect(crosses(square, at(100, 100), at(200, 100))).toBe(false);
    // Touches one corner only: 100, 200.
    expect(crosses(square, at(0, 100), at(200, 300))).toBe(false);
    // Along the inner edge of the L's notch and then through its arm.
    expect(crosses(corner, at(150, 50), at(60, 50))).toBe(false);
    expect(crosses(corner, at(150, 50), at(25, 50))).toBe(true);
  });

  it("finds a triangle clear only when the shape is neither crossed nor swallowed", () => {
    const [a, b, c] = [at(-1000, 0), at(1000, 0), at(0, 2000)];
    expect(clearTriangle(square, a, b, c)).toBe(false);
    expect(clearTriangle({ type: "disc", eastM: 0, northM: 500, radiusM: 5 }, a, b, c)).toBe(false);
    expect(clearTriangle({ type: "disc", eastM: 0, northM: -6, radiusM: 5 }, a, b, c)).toBe(true);
    expect(clearTriangle({ type: "disc", eastM: 0, northM: -4, radiusM: 5 }, a, b, c)).toBe(false);
    // The triangle inside the shape.
    expect(clearTriangle(square, at(120, 120), at(130, 120), at(120, 130))).toBe(false);
  });
});
