import { describe, expect, it } from "vitest";
import type { RouteClass } from "../../../src/solver/bound/routes.ts";
import { NgRoutes } from "../../../src/solver/bound/walks.ts";

/**
 * Two tasks of 8 s with 3 s of way before, between and after: 3 + 8 + 3 + 8 + 3 = 25 s, open all the time. Time is cut into steps of
 * 5 s, of which 11 s and 22 s, when the tasks end, are no multiples.
 */
const route = (backByS: number): RouteClass => ({
  routes: [0],
  count: 2,
  activity: Int32Array.from([0, 1]),
  lastsS: Int32Array.from([8, 8]),
  openStart: Int32Array.from([0, 1, 2]),
  openFromS: Int32Array.from([0, 0]),
  openToS: Int32Array.from([100, 100]),
  legS: new Int32Array(9).fill(3),
  leaveS: 0,
  backByS,
  outS: backByS,
  outBinds: false,
  sums: [],
});

/** One point for each task gone to, nothing for the way home. */
const POINTS = Float64Array.from([0, 1, 0, 1, 0, 0, 1, 1, 0]);

function most(backByS: number): number {
  const going = new NgRoutes(route(backByS), 5, 8).most(POINTS, Uint8Array.from([1, 1]));
  for (;;) {
    const { done, value } = going.next();
    if (done) return value;
  }
}

describe("walks in steps of time", () => {
  it("never gain less than a route that can be walked, whose ends lie between steps", () => {
    expect(most(25)).toBe(2);
  });

  it("gain what can still be reached when the time home is shorter by more than a step", () => {
    // The first task ends at 11 s, brought forward to 10 s; the second would end at 21 s and be home at 24 s.
    expect(most(23)).toBe(1);
    expect(most(13)).toBe(0);
  });
});
