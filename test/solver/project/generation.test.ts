import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { random } from "../../../src/kernel/index.ts";
import { Generation } from "../../../src/solver/project/generation.ts";
import { candidate, Justification } from "../../../src/solver/project/justification.ts";
import { openingFrom, orderOf } from "../../../src/solver/project/network.ts";
import { type Project, projectFrom } from "../../../src/solver/project/problem.ts";
import { projects } from "./arbitrary.ts";
import { breachesOf } from "./naive.ts";

/** Serial generation by trying one start after the other against everything placed so far. */
function plainly(project: Project, order: Int32Array): number[] {
  const start: number[] = [];
  const busy = (a: number, at: number): boolean => {
    for (let t = at; t < at + project.length[a]!; t += 1) {
      for (let r = 0; r < project.resources; r += 1) {
        let use = project.demand[a * project.resources + r]!;
        for (const b of order) {
          const from = start[b];
          if (from !== undefined && from <= t && t < from + project.length[b]!) {
            use += project.demand[b * project.resources + r]!;
          }
        }
        if (use > project.capacity[r]!) return true;
      }
    }
    return false;
  };
  for (const a of order) {
    let from = project.openFrom[project.openStart[a]!]!;
    project.lagTo.forEach((to, e) => {
      if (to === a) from = Math.max(from, start[project.lagFrom[e]!]! + project.lag[e]!);
    });
    let at = openingFrom(project, a, from);
    while (busy(a, at)) at = openingFrom(project, a, at + 1);
    start[a] = at;
  }
  return start;
}

describe("Generation", () => {
  it("places every activity at the first start where it fits", () => {
    for (const openings of [false, true]) {
      fc.assert(
        fc.property(projects({ activities: 9, horizon: 60, circles: false, openings }), (project) => {
          const order = orderOf(project)!;
          const start = new Int32Array(project.activities);
          const generation = new Generation(project);
          generation.run(order, start);
          expect([...start]).toEqual(plainly(project, order));
          expect(breachesOf(project, start)).toEqual([]);
          expect(generation.late).toBe(0);
        }),
        { numRuns: 300 },
      );
    }
  });

  it("keeps many and large capacities apart in their words", () => {
    // 40 units of 10000 in use at once, twice; each pair fits, three do not.
    const project = projectFrom({
      lengths: [3, 3, 3],
      capacities: [10_000, 127, 1, 100],
      demands: [1, 2, 3].map(() => [5000, 60, 0, 50]),
      lags: [],
      openings: [1, 2, 3].map(() => [{ from: 0, to: 50 }]),
    });
    const start = new Int32Array(3);
    expect(new Generation(project).run(Int32Array.of(0, 1, 2), start)).toBe(6);
    expect([...start]).toEqual([0, 0, 3]);
  });

  it("counts by how much a start lies past its last opening", () => {
    const project = projectFrom({
      lengths: [4, 4],
      capacities: [1],
      demands: [[1], [1]],
      lags: [],
      openings: [[{ from: 0, to: 9 }], [{ from: 0, to: 1 }]],
    });
    const generation = new Generation(project);
    generation.run(Int32Array.of(0, 1), new Int32Array(2));
    expect(generation.late).toBe(3);
  });
});

describe("Justification", () => {
  it("gives sound schedules, never longer ones, and orders that respect the lags", () => {
    const all = projects({ activities: 12, horizon: 90, circles: false, openings: false });
    fc.assert(
      fc.property(all, fc.nat(), (project, seed) => {
        const justification = Justification.of(project)!;
        const stream = random(seed);
        const key = Int32Array.from({ length: project.activities }, () => stream.below(20));
        const one = candidate(new Int32Array(project.activities));
        justification.ordering.sort(key, one.order);
        const before = new Generation(project).run(one.order, new Int32Array(project.activities));
        justification.apply(one);
        expect(breachesOf(project, one.start)).toEqual([]);
        const place = new Map([...one.order].map((a, k) => [a, k]));
        project.lagTo.forEach((to, e) => {
          expect(place.get(project.lagFrom[e]!)!).toBeLessThan(place.get(to)!);
        });
        const plain = project.lag.every((least, e) => least >= project.length[project.lagFrom[e]!]!);
        if (plain) expect(one.finish).toBeLessThanOrEqual(before);
      }),
      { numRuns: 300 },
    );
  });
});
