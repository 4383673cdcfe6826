import { describe, expect, it } from "vitest";
import { floorOf, tailsOf } from "../../../src/solver/project/floor.ts";
import {
  openingFrom,
  openingUntil,
  orderOf,
  positiveCycle,
  spanOf,
} from "../../../src/solver/project/network.ts";
import { projectFrom } from "../../../src/solver/project/problem.ts";

function lagsOnly(count: number, lags: [number, number, number][], to = 100) {
  return projectFrom({
    lengths: Array.from({ length: count }, () => 0),
    capacities: [],
    demands: Array.from({ length: count }, () => []),
    lags: lags.map(([from, into, lag]) => ({ from, to: into, lag })),
    openings: Array.from({ length: count }, () => [{ from: 0, to }]),
  });
}

describe("positiveCycle", () => {
  it("names exactly the edges that contradict each other, in their order", () => {
    const project = lagsOnly(5, [
      [0, 1, 2],
      [3, 4, 7],
      [1, 2, 4],
      [2, 0, -5],
      [2, 3, 1],
    ]);
    // 2 + 4 - 5 = 1 > 0 round 0, 1, 2.
    const cycle = positiveCycle(project);
    expect([...cycle].sort()).toEqual([0, 2, 3]);
    cycle.forEach((edge, k) => {
      expect(project.lagTo[edge]).toBe(project.lagFrom[cycle[(k + 1) % cycle.length]!]);
    });
  });

  it("is empty where the cycle adds up to zero", () => {
    expect(
      positiveCycle(
        lagsOnly(3, [
          [0, 1, 2],
          [1, 2, 4],
          [2, 0, -6],
        ]),
      ),
    ).toEqual([]);
  });
});

describe("spanOf", () => {
  it("leaps over the gaps between openings in both directions", () => {
    // b opens 0..2 and 8..9, at least 4 after a: from 8. a opens 0..9, at least 4 before b at 9: until 5.
    const project = projectFrom({
      lengths: [1, 1],
      capacities: [],
      demands: [[], []],
      lags: [{ from: 0, to: 1, lag: 4 }],
      openings: [
        [{ from: 0, to: 9 }],
        [
          { from: 0, to: 2 },
          { from: 8, to: 9 },
        ],
      ],
    });
    expect(spanOf(project)).toEqual({ earliest: Int32Array.of(0, 8), latest: Int32Array.of(5, 9) });
    expect([2, 3, 8, 9, 10].map((at) => openingFrom(project, 1, at))).toEqual([2, 8, 8, 9, 10]);
    expect([10, 8, 7, 2, -1].map((at) => openingUntil(project, 1, at))).toEqual([9, 8, 2, 2, -1]);
  });

  it("is null when an opening is missed", () => {
    expect(spanOf(lagsOnly(2, [[0, 1, 101]]))).toBeNull();
  });
});

describe("orderOf", () => {
  it("is null for edges in a circle, even a harmless one", () => {
    expect(
      orderOf(
        lagsOnly(2, [
          [0, 1, 2],
          [1, 0, -9],
        ]),
      ),
    ).toBeNull();
    expect([
      ...orderOf(
        lagsOnly(3, [
          [2, 0, 1],
          [0, 1, 1],
        ]),
      )!,
    ]).toEqual([2, 0, 1]);
  });
});

describe("floorOf", () => {
  it("is head + work over capacity + tail", () => {
    // Three of 4 units length on one machine after a head of 2, each with 3 to follow: 2 + 12 + 3 = 17,
    // though the critical path is only 2 + 4 + 3.
    const lengths = [2, 4, 4, 4, 3];
    const project = projectFrom({
      lengths,
      capacities: [1],
      demands: [[0], [1], [1], [1], [0]],
      lags: [1, 2, 3].flatMap((a) => [
        { from: 0, to: a, lag: 2 },
        { from: a, to: 4, lag: 4 },
      ]),
      openings: lengths.map(() => [{ from: 0, to: 50 }]),
    });
    expect([...tailsOf(project)]).toEqual([7, 3, 3, 3, 0]);
    expect(floorOf(project, spanOf(project)!)).toBe(17);
  });
});
