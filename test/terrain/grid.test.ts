import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { heightAt } from "../../src/terrain/index.ts";
import { gradients } from "../../src/terrain/grid.ts";
import { evenly } from "../physics/evenly.ts";
import { hill } from "./hill.ts";

const size = { columns: 12, rows: 9, cellM: 10, westM: -50, southM: -40 };

describe("a height grid", () => {
  it("has a plane's height, everywhere, exactly", () => {
    fc.assert(
      fc.property(evenly(-50, 60), evenly(-40, 40), evenly(-1, 1), evenly(-1, 1), (east, north, a, b) => {
        const plane = hill(size, (e, n) => 5 + a * e + b * n);
        expect(heightAt(plane, east, north)).toBeCloseTo(5 + a * east + b * north, 9);
      }),
    );
  });

  it("is bilinear between its points: 10, 20, 30, 60 in the middle make 30", () => {
    const four = hill(
      { columns: 2, rows: 2, cellM: 4 },
      (e, n) => 10 + (10 * e) / 4 + (20 * n) / 4 + (20 * e * n) / 16,
    );
    expect(heightAt(four, 2, 2)).toBe(30);
    expect(heightAt(four, 4, 4)).toBe(60);
    // Along the south edge it is 10 to 20, so a quarter of the way is 12.5.
    expect(heightAt(four, 1, 0)).toBe(12.5);
  });

  it("knows nothing outside, nor beside a point of unknown height, but on the known side of an edge it does", () => {
    const gap = hill(size, (e, n) => (e === 0 && n === 0 ? NaN : 1));
    expect(heightAt(gap, 60.1, 0)).toBeNaN();
    expect(heightAt(gap, -50.1, 0)).toBeNaN();
    expect(heightAt(gap, 3, 3)).toBeNaN();
    expect(heightAt(gap, 10, 3)).toBe(1);
    expect(heightAt(gap, 60, 40)).toBe(1);
  });

  it("has the gradient of a plane at every point, edges too", () => {
    const plane = hill(size, (e, n) => 0.3 * e - 0.2 * n);
    const { east, north } = gradients(plane);
    for (const one of east) expect(one).toBeCloseTo(0.3, 9);
    for (const one of north) expect(one).toBeCloseTo(-0.2, 9);
  });
});
